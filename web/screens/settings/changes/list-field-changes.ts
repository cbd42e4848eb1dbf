import type { Change } from '#server/contract/changes.ts';
import { formatMoment } from '#web/format/format-date.ts';

export interface FieldChange {
  field: string;
  /** null where there was nothing before, or is nothing any more */
  from: string | null;
  to: string | null;
}

/** The name of what a field refers to by id, as it is known now. */
export type NameOf = (field: string, id: string) => string;

/** Fields end in the unit that they are stored in. */
const units: Record<string, string> = {
  c: '°C',
  km: 'km',
  kmh: 'km/h',
  mib: 'MiB',
  nm: 'N m',
  ohm: 'ohm',
  pct: '%',
  rpm: 'rpm',
  s: 's',
  v: 'V',
};

/** Fields whose name says no more than their unit, in words. */
const named: Record<string, { words: string; unit: string }> = { ohm: { words: 'coil', unit: ' ohm' } };

const moment = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}.*(Z|[+-]\d{2}:\d{2})$/;

/** What a change did, field by field; parts of a part get a line of their own. */
export function listFieldChanges(
  { before, after }: Pick<Change, 'before' | 'after'>,
  nameOf: NameOf = (_, id) => id,
): FieldChange[] {
  const old = flatten(before, nameOf);
  const now = flatten(after, nameOf);
  return [...new Set([...old.keys(), ...now.keys()])]
    .map((field) => ({
      field,
      from: before === null ? null : (old.get(field) ?? 'nothing'),
      to: after === null ? null : (now.get(field) ?? 'nothing'),
    }))
    .filter(({ from, to }) => from !== to);
}

function flatten(content: Record<string, unknown> | null, nameOf: NameOf): Map<string, string> {
  const lines = new Map<string, string>();
  for (const [key, value] of Object.entries(content ?? {})) {
    const { words: field, unit } = splitUnit(key);
    if (isRecord(value))
      for (const [part, words] of flatten(value, nameOf)) lines.set(`${field}, ${part}`, words);
    else lines.set(field, `${sayValue(key, value, nameOf)}${isMeasured(value) ? unit : ''}`);
  }
  return lines;
}

function sayValue(key: string, value: unknown, nameOf: NameOf): string {
  if (value === null || value === undefined || value === '')
    return key === 'depots' ? 'all depots' : 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return moment.test(value) ? formatMoment(value) : nameOf(key, value);
  if (Array.isArray(value))
    return value.length === 0
      ? 'none'
      : value.map((one) => sayValue(key, one, nameOf)).join(value.some(isRecord) ? '; ' : ', ');
  return isRecord(value) ? sayParts(value, nameOf) : JSON.stringify(value);
}

/** One of a list of things with parts, such as a special day; parts that say nothing are left out. */
const sayParts = (value: Record<string, unknown>, nameOf: NameOf): string =>
  Object.entries(value)
    .filter(([, part]) => part !== null && part !== '')
    .map(([part, of]) => `${part.replaceAll('_', ' ')} ${sayValue(part, of, nameOf)}`)
    .join(' ');

function splitUnit(key: string): { words: string; unit: string } {
  if (Object.hasOwn(named, key)) return named[key] ?? { words: key, unit: '' };
  const words = key.split('_');
  const unit = words.length > 1 ? units[words.at(-1) ?? ''] : undefined;
  if (unit === undefined) return { words: words.join(' '), unit: '' };
  return { words: words.slice(0, -1).join(' '), unit: ` ${unit}` };
}

const isMeasured = (value: unknown): boolean =>
  typeof value === 'number' || (Array.isArray(value) && value.some((one) => typeof one === 'number'));

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
