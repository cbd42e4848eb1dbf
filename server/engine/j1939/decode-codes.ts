export interface ActiveCode {
  spn: number;
  fmi: number;
  /** occurrences; null where the sender does not count them */
  count: number | null;
}

const LAMPS_BYTES = 2;
const CODE_BYTES = 4;
const COUNT_NOT_AVAILABLE = 127;

/**
 * Trouble codes of an active trouble codes message (DM1).
 *
 * After two bytes of lamps four bytes a code: SPN = b0 | b1 << 8 | (b2 >> 5) << 16; FMI = b2 & 1F; count = b3 & 7F, 127 not
 * available; the conversion bit b3 >> 7 must be 0.
 *
 * @param data the message, single frame or reassembled
 * @returns the codes, and how many were left out because their conversion bit says that they are laid out differently
 * Source: SAE J1939-73, section 5.7.1, conversion method 4, from transcriptions that agree. Edges: SPN 0 says that no code
 * is active; bytes after the last whole code and codes of all FF are padding. Errors: none.
 * @example decodeCodes(Uint8Array.of(0, 0, 0x3d, 2, 7, 1, 255, 255)) // { codes: [{ spn: 573, fmi: 7, count: 1 }], otherLayout: 0 }
 */
export function decodeCodes(data: Uint8Array): { codes: ActiveCode[]; otherLayout: number } {
  const codes: ActiveCode[] = [];
  let otherLayout = 0;
  for (let at = LAMPS_BYTES; at + CODE_BYTES <= data.length; at += CODE_BYTES) {
    const [low = 0, middle = 0, high = 0, last = 0] = data.subarray(at, at + CODE_BYTES);
    if ((low & middle & high & last) === 0xff) continue;
    const spn = low | (middle << 8) | ((high >> 5) << 16);
    if (last >> 7 !== 0) otherLayout += 1;
    else if (spn !== 0)
      codes.push({ spn, fmi: high & 0x1f, count: last === COUNT_NOT_AVAILABLE ? null : last });
  }
  return { codes, otherLayout };
}
