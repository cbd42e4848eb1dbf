/** `specific`: has a meaning of the parameter's own; `reserved`: has none yet. */
export type RawKind = 'valid' | 'specific' | 'reserved' | 'error' | 'not_available';

const LAST_VALID = 0xfa;

/**
 * What a raw value stands for.
 *
 * By its top byte alone: 00 to FA valid, FB of the parameter's own, FC and FD reserved, FE error, FF not available; so FEFF and
 * FE00 are both errors. Of two bits 0 and 1 are states, 2 error, 3 not available.
 *
 * @param raw  raw value, unsigned
 * @param bits its length: 2, 8, 16 or 32
 * @returns the kind
 * Source: SAE J1939-71, section 5.1, transmitted signal ranges, from transcriptions that agree. Edges, errors: none.
 * @example judgeRaw(0xfe00, 16) // 'error'
 */
export function judgeRaw(raw: number, bits: 2 | 8 | 16 | 32): RawKind {
  if (bits === 2) return raw < 2 ? 'valid' : raw === 2 ? 'error' : 'not_available';
  const top = bits === 8 ? raw : bits === 16 ? raw >> 8 : raw >>> 24;
  if (top <= LAST_VALID) return 'valid';
  if (top === 0xff) return 'not_available';
  if (top === 0xfe) return 'error';
  return top === 0xfb ? 'specific' : 'reserved';
}
