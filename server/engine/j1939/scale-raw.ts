import type { Signal } from './signals.ts';

/**
 * A raw value in the signal's unit.
 *
 * value = raw * resolution + offset.
 *
 * @param raw    raw value, valid
 * @param signal its resolution and offset
 * @returns the value
 * Source: SAE J1939-71, section 5.1, from transcriptions that agree. Edges: a raw value that is not valid scales to nonsense:
 * ask `judgeRaw` first. Errors: none.
 * @example scaleRaw(11_456, signals.fluidTemperature) // 85
 */
export function scaleRaw(raw: number, signal: Signal): number {
  return raw * signal.resolution + signal.offset;
}
