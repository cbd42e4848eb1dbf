import { isUtf8 } from 'node:buffer';
import { SlipdriftError } from '#server/errors.ts';

const HEAD_BYTES = 65_536;

export interface TraceText {
  encoding: 'utf8' | 'latin1';
  delimiter: ',' | ';' | '\t';
}

/** How a file is written: refused where it is no text, or no table. */
export function sniffTraceText(bytes: Uint8Array): TraceText {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (buffer.length === 0) throw refuse('is empty');
  const [first, second] = buffer;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff))
    throw refuse('is written in UTF-16; save it as CSV in UTF-8');
  if (buffer.includes(0)) throw refuse('is not text, so it cannot be a CSV');
  const encoding = isUtf8(buffer) ? 'utf8' : 'latin1';
  const head = buffer.toString(encoding, 0, HEAD_BYTES).replace(/^\ufeff/, '');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these tell text from what is none
  const odd = head.match(/[\x01-\x08\x0e-\x1f]/g)?.length ?? 0;
  if (odd > head.length / 100) throw refuse('is not text, so it cannot be a CSV');
  const firstLine = head.split(/[\r\n]/).find((line) => line.trim() !== '') ?? '';
  const counts = ([',', ';', '\t'] as const).map((delimiter) => ({
    delimiter,
    n: firstLine.replaceAll(/"[^"]*"/g, '').split(delimiter).length - 1,
  }));
  const best = counts.reduce((a, b) => (b.n > a.n ? b : a));
  if (best.n === 0) throw refuse('has no columns separated by commas, semicolons or tabs in its first line');
  return { encoding, delimiter: best.delimiter };
}

const refuse = (message: string) =>
  new SlipdriftError('invalid_request', `The file ${message}. Nothing was stored; send the trace as CSV.`, {
    errors: [{ field: 'file', message }],
  });
