import type { Line } from '#server/services/intake/line.ts';

/**
 * A line of a message with the vehicle of its topic: added where it names none, refused where it names another. What is
 * kept of a line that was read is JSON with its vehicle, so that it can be read again without its topic and header.
 */
export function nameVehicle(line: Line, vehicle: string | null): Line {
  const { value, raw } = line;
  if (!isObject(value))
    return line.errors === null || vehicle === null ? line : { ...line, value: { vehicle } };
  const kept = raw.trimStart().startsWith('{') ? raw : JSON.stringify(value);
  if (vehicle === null) return { ...line, raw: kept };
  const { vehicle: named } = value;
  if (named === undefined || named === null || named === '') {
    const whole = { ...value, vehicle };
    return { ...line, raw: JSON.stringify(whole), value: whole };
  }
  if (typeof named !== 'string' || named.trim() === vehicle) return { ...line, raw: kept };
  const errors = [{ field: 'vehicle', message: 'is another than that of the topic' }];
  return { ...line, raw: kept, errors };
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
