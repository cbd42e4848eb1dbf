import { TableFault } from './table.ts';

/** The text of a file, by its byte order mark, else UTF-8, else the code page of older spreadsheets. */
export function decodeText(bytes: ArrayBuffer): string {
  const [first = 0, second = 0] = new Uint8Array(bytes, 0, Math.min(2, bytes.byteLength));
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  if (first === 0x50 && second === 0x4b)
    throw new TableFault(
      'This is no text but a packed file, as spreadsheet programs store theirs. Save the sheet as CSV and take that.',
    );
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}
