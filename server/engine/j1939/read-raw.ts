import type { Signal } from './signals.ts';

/**
 * Raw value of a signal in the data of its parameter group.
 *
 * raw = sum of byte[i] * 256^i, least byte first; of two bits (byte >> start) & 3.
 *
 * @param data   data bytes; only the first `length` count
 * @param length bytes that came
 * @param signal where it lies
 * @returns the raw value, unsigned, or -1 where the data end before it
 * Source: SAE J1939-71, section 5.1 (least byte first), from transcriptions that agree. Edges: short data leave out what does
 * not fit. Errors: none.
 * @example readRaw(Uint8Array.of(0, 0, 0, 0x40, 0x1f), 5, signals.engineSpeed) // 8000
 */
export function readRaw(data: Uint8Array, length: number, signal: Signal): number {
  const at = signal.startBit >> 3;
  const bits = signal.bits;
  if (bits === 2) return at < length ? ((data[at] ?? 0) >> (signal.startBit & 7)) & 3 : -1;
  if (at + (bits >> 3) > length) return -1;
  const low = data[at] ?? 0;
  if (bits === 8) return low;
  const pair = low | ((data[at + 1] ?? 0) << 8);
  if (bits === 16) return pair;
  return pair + ((data[at + 2] ?? 0) << 16) + (data[at + 3] ?? 0) * 0x1000000;
}
