const STAR = 0x2a;

/**
 * Vehicle identification number of a vehicle identification message (VI).
 *
 * ASCII up to the star that ends it; without a star up to 00, FF or the end.
 *
 * @param data the message, single frame or reassembled
 * @returns the number without blanks around it, or null where there is none or it is no text
 * Source: SAE J1939-71, SPN 237, from transcriptions that agree. Edges: of what follows the star nothing is read; a number of
 * all FF is not available. Errors: none.
 * @example decodeVin(Uint8Array.of(0x41, 0x42, 0x37, 0x2a)) // 'AB7'
 */
export function decodeVin(data: Uint8Array): string | null {
  let text = '';
  for (const byte of data) {
    if (byte === STAR || byte === 0 || byte === 0xff) break;
    if (byte < 0x20 || byte > 0x7e) return null;
    text += String.fromCharCode(byte);
  }
  const trimmed = text.trim();
  return trimmed === '' ? null : trimmed;
}
