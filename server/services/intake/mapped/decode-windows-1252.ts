import { isAscii } from 'node:buffer';

/** Characters of the bytes 0x80 to 0x9f (WHATWG Encoding, index windows-1252); all others are those of Latin-1. */
const HIGH = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';
const UTF8_MARK = Buffer.from([0xef, 0xbb, 0xbf]);

/**
 * Bytes of Windows-1252 as UTF-8. Each is a character, so a chunk may end anywhere. A text that begins with the mark of
 * UTF-8 is that, whatever the mapping says, and goes through as it is.
 */
export async function* decodeWindows1252(chunks: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let start: Buffer | null = Buffer.alloc(0);
  let isUtf8 = false;
  for await (const chunk of chunks) {
    let piece = chunk;
    if (start !== null) {
      piece = Buffer.concat([start, chunk]);
      if (piece.length < UTF8_MARK.length) {
        start = piece;
        continue;
      }
      isUtf8 = piece.subarray(0, UTF8_MARK.length).equals(UTF8_MARK);
      start = null;
    }
    yield isUtf8 || isAscii(piece) ? piece : Buffer.from(decodeWindows1252Text(piece));
  }
  if (start !== null && start.length > 0) yield Buffer.from(decodeWindows1252Text(start));
}

export const decodeWindows1252Text = (bytes: Buffer): string =>
  bytes
    .toString('latin1')
    .replaceAll(/[\u0080-\u009f]/g, (character) => HIGH[character.charCodeAt(0) - 0x80] ?? character);
