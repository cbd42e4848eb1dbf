import { isUtf8 } from 'node:buffer';
import { BodyFault } from './body-fault.ts';
import {
  BREAKS_OFF,
  badLine,
  LINE_LIMIT_BYTES,
  type Line,
  LONG_LINE_HELD_BYTES,
  NOT_UTF8,
  TOO_LONG,
} from './line.ts';
import { parseJsonLine } from './parse-json-line.ts';

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COMMA = 0x2c;
const COLON = 0x3a;
const OPEN_ARRAY = 0x5b;
const CLOSE_ARRAY = 0x5d;
const OPEN_OBJECT = 0x7b;
const CLOSE_OBJECT = 0x7d;
const BOM = [0xef, 0xbb, 0xbf];

type Place = 'start' | 'key' | 'colon' | 'value' | 'skipped' | 'element' | 'next' | 'done';

const EXPECTED = 'The body must be a JSON array of readings, or an object {"readings": [...]}.';

/**
 * Finds the elements of `[...]` or `{"readings": [...]}` in a body that comes in pieces, holding one element at most.
 * Own code, because an element must be kept as it came when it is refused, and because a broken element must not end the
 * body: JSON tokenizers give neither. It looks for borders only; JSON.parse decides what is JSON.
 */
export function createElementScanner() {
  let place: Place = 'start';
  let enveloped = false;
  let found = false;
  let index = 0;
  let offset = 0;
  let depth = 0;
  let inString = false;
  let escaped = false;
  let parts: Buffer[] = [];
  let partBytes = 0;

  const keep = (bytes: Buffer) => {
    const wasTooLong = partBytes > LINE_LIMIT_BYTES;
    partBytes += bytes.length;
    if (wasTooLong) return;
    parts.push(bytes);
    if (partBytes > LINE_LIMIT_BYTES) parts = [Buffer.concat(parts).subarray(0, LONG_LINE_HELD_BYTES)];
  };

  const take = (): { bytes: Buffer; tooLong: boolean } => {
    const [first] = parts;
    const bytes = parts.length === 1 && first !== undefined ? first : Buffer.concat(parts);
    const tooLong = partBytes > LINE_LIMIT_BYTES;
    parts = [];
    partBytes = 0;
    depth = 0;
    return { bytes, tooLong };
  };

  const finishElement = (last: boolean): Line | null => {
    const { bytes, tooLong } = take();
    const text = trimBlanks(bytes.toString('utf8'));
    if (text === '' && last && index === 0) return null;
    index += 1;
    if (tooLong) return badLine(index, text, TOO_LONG);
    if (!isUtf8(bytes)) return badLine(index, text, NOT_UTF8);
    if (text === '') return badLine(index, text, 'is empty: a comma too many');
    return parseJsonLine(index, text);
  };

  const broken = (at: number): BodyFault => {
    const after = index > 0 ? ` after element ${index}` : '';
    return new BodyFault(
      'body_broken',
      `The JSON text breaks at byte ${offset + at + 1}${after}. ${EXPECTED}`,
    );
  };

  /** Where the structure around the elements is at fault, the lines before come with the fault. */
  const push = (chunk: Buffer): { lines: Line[]; fault: BodyFault | null } => {
    const lines: Line[] = [];
    let from = 0;
    for (let i = 0; i < chunk.length; i++) {
      const byte = chunk[i] ?? 0;
      if (inString) {
        if (escaped) escaped = false;
        else if (byte === BACKSLASH) escaped = true;
        else if (byte === QUOTE) {
          inString = false;
          if (place === 'key') {
            keep(chunk.subarray(from, i));
            place = 'colon';
          }
        }
        continue;
      }
      if (place === 'element' || place === 'skipped') {
        if (byte === QUOTE) inString = true;
        else if (byte === OPEN_OBJECT || byte === OPEN_ARRAY) depth += 1;
        else if (depth > 0) {
          if (byte === CLOSE_OBJECT || byte === CLOSE_ARRAY) depth -= 1;
        } else if (place === 'element' && (byte === COMMA || byte === CLOSE_ARRAY)) {
          keep(chunk.subarray(from, i));
          from = i + 1;
          const line = finishElement(byte === CLOSE_ARRAY);
          if (line !== null) lines.push(line);
          if (byte === CLOSE_ARRAY) place = enveloped ? 'next' : 'done';
        } else if (place === 'skipped' && (byte === COMMA || byte === CLOSE_OBJECT)) {
          place = byte === COMMA ? 'key' : 'done';
        }
        continue;
      }
      if (isBlank(byte)) continue;
      if (place === 'start' && offset + i < 3 && byte === BOM[offset + i]) continue;
      if (place === 'start' && byte === OPEN_ARRAY) {
        found = true;
        place = 'element';
        from = i + 1;
      } else if (place === 'start' && byte === OPEN_OBJECT) {
        enveloped = true;
        place = 'key';
      } else if (place === 'key' && byte === QUOTE) {
        inString = true;
        from = i + 1;
      } else if (place === 'key' && byte === CLOSE_OBJECT) place = 'done';
      else if (place === 'colon' && byte === COLON) place = 'value';
      else if (place === 'value') {
        const isReadings = take().bytes.toString('utf8') === 'readings';
        if (isReadings && (found || byte !== OPEN_ARRAY)) return { lines, fault: broken(i) };
        found ||= isReadings;
        place = isReadings ? 'element' : 'skipped';
        from = i + 1;
        if (!isReadings) i -= 1;
      } else if (place === 'next' && byte === COMMA) place = 'key';
      else if (place === 'next' && byte === CLOSE_OBJECT) place = 'done';
      else return { lines, fault: broken(i) };
    }
    if (place === 'element' || (place === 'key' && inString)) keep(chunk.subarray(from));
    offset += chunk.length;
    return { lines, fault: null };
  };

  /** What is left when the body has ended, by itself or not. */
  const end = (): { lines: Line[]; fault: BodyFault | null } => {
    if (place === 'done' && found) return { lines: [], fault: null };
    if (place === 'done')
      return { lines: [], fault: new BodyFault('body_broken', `There is no "readings". ${EXPECTED}`) };
    if (place === 'start')
      return { lines: [], fault: new BodyFault('body_empty', `The body is empty. ${EXPECTED}`) };
    const within = place === 'element' ? ` within element ${index + 1}` : '';
    const text = place === 'element' ? trimBlanks(take().bytes.toString('utf8')) : '';
    return {
      lines: text === '' ? [] : [badLine(index + 1, text, BREAKS_OFF)],
      fault: new BodyFault('body_broken', `The JSON text ends too early${within}.`),
    };
  };

  return { push, end };
}

const isBlank = (code: number): boolean => code === 0x20 || code === 0x0a || code === 0x0d || code === 0x09;

/** Takes off what is blank in JSON and nothing else: `trim` would take a byte order mark with it. */
function trimBlanks(text: string): string {
  let start = 0;
  let end = text.length;
  while (start < end && isBlank(text.charCodeAt(start))) start += 1;
  while (end > start && isBlank(text.charCodeAt(end - 1))) end -= 1;
  return text.slice(start, end);
}
