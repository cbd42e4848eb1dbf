import { isUtf8 } from 'node:buffer';
import { BREAKS_OFF, LINE_LIMIT_BYTES, LONG_LINE_HELD_BYTES, NOT_UTF8, TOO_LONG } from './line.ts';

export interface TextLine {
  /** physical line, from 1 */
  line: number;
  text: string;
  fault: string | null;
}

type TakeLine = (bytes: Buffer, from: number, to: number, line: number) => boolean;

const LF = 10;
/** A byte order mark before the first line and a carriage return at the end of one do not count to its length. */
const AROUND_BYTES = 4;
/** Larger chunks are taken in pieces, so that the lines of one piece stay few. */
const PIECE_BYTES = 262_144;

/**
 * Cuts a body into its lines, a block of them for every chunk that ends one. Holds at most one line. Where the body
 * breaks off, its last, unfinished line is told apart from a last line without a newline: half a number is a number. A line that
 * `take` answers true to, asked with its bytes and number, is taken and not among them; a block may then be empty.
 */
export async function* splitLines(
  chunks: AsyncIterable<Buffer>,
  take: TakeLine | null = null,
): AsyncGenerator<TextLine[]> {
  const cutter = createLineCutter(take);
  try {
    for await (const chunk of chunks)
      for (let from = 0; from < chunk.length; from += PIECE_BYTES) {
        const lines = cutter.push(chunk.subarray(from, from + PIECE_BYTES));
        if (lines.length > 0 || take !== null) yield lines;
      }
  } catch (error) {
    const [last] = cutter.end();
    if (last !== undefined && last.text !== '') yield [{ ...last, fault: BREAKS_OFF }];
    throw error;
  }
  const last = cutter.end();
  if (last.length > 0) yield last;
}

function createLineCutter(take: TakeLine | null) {
  let line = 1;
  let unfinished: Buffer[] = [];
  let unfinishedBytes = 0;

  const isCut = () => unfinishedBytes > LINE_LIMIT_BYTES + AROUND_BYTES;

  const keep = (bytes: Buffer) => {
    const wasCut = isCut();
    unfinishedBytes += bytes.length;
    if (wasCut) return;
    unfinished.push(bytes);
    if (isCut()) unfinished = [Buffer.concat(unfinished).subarray(0, LONG_LINE_HELD_BYTES)];
  };

  const finish = (): TextLine => {
    const bytes = Buffer.concat(unfinished);
    const fault = isCut() ? TOO_LONG : null;
    unfinished = [];
    unfinishedBytes = 0;
    return toTextLine(line++, bytes.toString('utf8'), fault, bytes);
  };

  const push = (piece: Buffer): TextLine[] => {
    const last = piece.lastIndexOf(LF);
    if (last < 0) {
      keep(piece);
      return [];
    }
    const lines: TextLine[] = [];
    let from = 0;
    if (unfinishedBytes > 0) {
      from = piece.indexOf(LF) + 1;
      keep(piece.subarray(0, from - 1));
      lines.push(finish());
    }
    if (from <= last) {
      const block = piece.subarray(from, last);
      if (take !== null) cutTaking(block, take, lines);
      else if (isUtf8(block))
        for (const text of block.toString('utf8').split('\n')) lines.push(toTextLine(line++, text, null));
      else
        for (const bytes of splitBytes(block))
          lines.push(toTextLine(line++, bytes.toString('utf8'), null, bytes));
    }
    if (last + 1 < piece.length) keep(piece.subarray(last + 1));
    return lines;
  };

  const cutTaking = (block: Buffer, taken: TakeLine, lines: TextLine[]) => {
    for (let from = 0; from <= block.length; ) {
      const found = block.indexOf(LF, from);
      const to = found < 0 ? block.length : found;
      if (!taken(block, from, to, line)) {
        const bytes = block.subarray(from, to);
        lines.push(toTextLine(line, bytes.toString('utf8'), null, bytes));
      }
      line++;
      from = to + 1;
    }
  };

  return { push, end: (): TextLine[] => (unfinishedBytes > 0 ? [finish()] : []) };
}

function toTextLine(line: number, text: string, fault: string | null, bytes?: Buffer): TextLine {
  const start = line === 1 && text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const end = text.charCodeAt(text.length - 1) === 13 ? text.length - 1 : text.length;
  const trimmed = start === 0 && end === text.length ? text : text.slice(start, end);
  if (fault !== null) return { line, text: trimmed, fault };
  // Text of bytes that are not UTF-8 is longer than they are: the mark for each of them takes three.
  const tooLong =
    bytes === undefined
      ? isTooLong(trimmed)
      : bytes.length - 3 * start - (text.length - end) > LINE_LIMIT_BYTES;
  if (tooLong) return { line, text: trimmed, fault: TOO_LONG };
  return { line, text: trimmed, fault: bytes === undefined || isUtf8(bytes) ? null : NOT_UTF8 };
}

const isTooLong = (text: string): boolean =>
  text.length * 3 > LINE_LIMIT_BYTES && Buffer.byteLength(text) > LINE_LIMIT_BYTES;

function* splitBytes(block: Buffer): Generator<Buffer> {
  let from = 0;
  for (;;) {
    const end = block.indexOf(LF, from);
    yield block.subarray(from, end < 0 ? block.length : end);
    if (end < 0) return;
    from = end + 1;
  }
}
