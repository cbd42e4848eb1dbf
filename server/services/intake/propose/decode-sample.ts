import { isUtf8 } from 'node:buffer';
import type { Mapping } from '#server/contract/mappings.ts';
import { decodeWindows1252Text } from '#server/services/intake/mapped/decode-windows-1252.ts';

export interface SampleText {
  text: string;
  encoding: Mapping['encoding'];
  /** characters beyond ASCII, so that the encoding matters */
  matters: boolean;
  /** of another encoding, which is not read; null where it is read */
  unread: string | null;
}

/** The text of the beginning of a file, whose last character may be cut. */
export function decodeSample(bytes: Buffer): SampleText {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff))
    return { text: '', encoding: 'utf-8', matters: true, unread: 'is UTF-16 text; save the file as UTF-8' };
  if (bytes.subarray(0, 4096).includes(0))
    return { text: '', encoding: 'utf-8', matters: true, unread: 'is no text; save the sheet as CSV' };
  for (let cut = 0; cut < 4 && cut <= bytes.length; cut++) {
    const part = bytes.subarray(0, bytes.length - cut);
    if (!isUtf8(part)) continue;
    const text = part.toString('utf8').replace(/^\ufeff/, '');
    return { text, encoding: 'utf-8', matters: /[^\p{ASCII}]/u.test(text), unread: null };
  }
  return { text: decodeWindows1252Text(bytes), encoding: 'windows-1252', matters: true, unread: null };
}
