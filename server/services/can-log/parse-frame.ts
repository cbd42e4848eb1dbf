import type { LineKind } from './line-kinds.ts';

/** A data frame with a 29-bit identifier. */
export interface Frame {
  line: number;
  /** by the clock of the log, microseconds */
  atUs: number;
  /** number of the interface, from 0 in the order in which they came */
  bus: number;
  id: number;
  length: number;
  data: Uint8Array;
}

const SPACE = 32;
const LF = 10;
const CR = 13;
const MOST_BUSES = 32;
const MOST_NAME_BYTES = 64;
/** Beyond this a double does not hold microseconds: the year 2255. */
const MOST_SECONDS = 9_000_000_000;
const ERROR_FLAG = 0x20000000;
const MOST_ID = 0x1fffffff;

/** Value of a hexadecimal digit, -1 for every other byte. */
const HEX = new Int8Array(256).fill(-1);
for (let i = 0; i < 16; i++) {
  const digit = i.toString(16);
  HEX[digit.charCodeAt(0)] = i;
  HEX[digit.toUpperCase().charCodeAt(0)] = i;
}
const hexOf = (byte: number | undefined): number => HEX[byte ?? 0] ?? -1;
const isDigit = (byte: number | undefined): boolean => byte !== undefined && byte >= 48 && byte <= 57;

/**
 * Reads the two forms that can-utils write, byte by byte and without making anything for a line:
 * `(seconds.micros) interface ID#DATA` and `(seconds.micros)  interface  ID   [n]  AA BB …`.
 */
export function createFrameParser() {
  const frame: Frame = { line: 0, atUs: 0, bus: 0, id: 0, length: 0, data: new Uint8Array(8) };
  const { data } = frame;
  const buses: Buffer[] = [];
  let fault: LineKind = 'broken';
  let lastBus = 0;

  const fail = (kind: LineKind): number => {
    fault = kind;
    return -1;
  };

  /**
   * Parses the line that begins at `from`, which a line feed must end; answers where that is, or -1 for what is no frame.
   * No loop passes the line feed: it is in none of the sets of bytes that they take.
   */
  const parse = (bytes: Buffer, from: number): number => {
    fault = 'broken';
    let at = from;
    while (bytes[at] === SPACE) at += 1;
    if (bytes[at] !== 40) return fail('broken');
    at += 1;
    let seconds = 0;
    const secondsFrom = at;
    for (; isDigit(bytes[at]); at += 1) seconds = seconds * 10 + (bytes[at] ?? 0) - 48;
    if (at === secondsFrom || bytes[at] !== 46 || seconds > MOST_SECONDS) return fail('broken');
    at += 1;
    let micros = 0;
    const microsFrom = at;
    for (; isDigit(bytes[at]); at += 1) if (at - microsFrom < 6) micros = micros * 10 + (bytes[at] ?? 0) - 48;
    if (at === microsFrom || bytes[at] !== 41) return fail('broken');
    for (let digits = at - microsFrom; digits < 6; digits += 1) micros *= 10;
    frame.atUs = seconds * 1_000_000 + micros;
    at += 1;
    if (bytes[at] !== SPACE) return fail('broken');
    while (bytes[at] === SPACE) at += 1;
    const nameFrom = at;
    while ((bytes[at] ?? 0) > SPACE) at += 1;
    const nameTo = at;
    if (bytes[at] !== SPACE || nameTo === nameFrom) return fail('broken');
    while (bytes[at] === SPACE) at += 1;
    if (bytes[at] === 82 || bytes[at] === 84) at = skipDirection(bytes, at);
    let id = 0;
    const idFrom = at;
    for (let digit = hexOf(bytes[at]); digit >= 0; digit = hexOf(bytes[at])) {
      id = ((id << 4) | digit) >>> 0;
      at += 1;
    }
    const digits = at - idFrom;
    if (digits !== 8 && digits !== 3) return fail('broken');
    frame.id = id;
    const end = bytes[at] === 35 ? parseJoined(bytes, at + 1) : parsePrinted(bytes, at);
    if (end < 0) return end;
    if (digits === 3) return id > 0x7ff ? fail('broken') : fail('short_identifier');
    if (id > MOST_ID) return id < 2 * ERROR_FLAG ? fail('error_frame') : fail('broken');
    const bus = findBus(bytes, nameFrom, nameTo);
    if (bus < 0) return fail(nameTo - nameFrom > MOST_NAME_BYTES ? 'broken' : 'many_buses');
    frame.bus = bus;
    return end;
  };

  /** `DATA`, after the hash. */
  const parseJoined = (bytes: Buffer, from: number): number => {
    let at = from;
    if (bytes[at] === 35) return fail('flexible');
    if (bytes[at] === 82) return fail('remote');
    let length = 0;
    for (let high = hexOf(bytes[at]); high >= 0; high = hexOf(bytes[at])) {
      const low = hexOf(bytes[at + 1]);
      if (low < 0 || length === 8) return fail('broken');
      data[length] = (high << 4) | low;
      length += 1;
      at += 2;
    }
    frame.length = length;
    if (bytes[at] === LF) return at;
    return endOfLine(bytes, at);
  };

  /** `   [n]  AA BB …`, from the blanks before the bracket on. */
  const parsePrinted = (bytes: Buffer, from: number): number => {
    let at = from;
    while (bytes[at] === SPACE) at += 1;
    if (bytes[at] !== 91 || !isDigit(bytes[at + 1])) return fail('broken');
    const wanted = (bytes[at + 1] ?? 0) - 48;
    at += 2;
    if (isDigit(bytes[at]) && bytes[at + 1] === 93) return fail('flexible');
    if (bytes[at] !== 93) return fail('broken');
    at += 1;
    let length = 0;
    for (;;) {
      const blanksFrom = at;
      while (bytes[at] === SPACE) at += 1;
      if (at === blanksFrom) break;
      const high = hexOf(bytes[at]);
      const low = high < 0 ? -1 : hexOf(bytes[at + 1]);
      if (low < 0 || length === 8) break;
      data[length] = (high << 4) | low;
      length += 1;
      at += 2;
    }
    if (length === 0 && startsWith(bytes, at, 'remote')) return fail('remote');
    if (length !== wanted) return fail('broken');
    frame.length = length;
    // Some print the characters, or the name of the kind, behind the data.
    if (bytes[at] === 39 || startsWith(bytes, at, 'ERRORFRAME')) return bytes.indexOf(LF, at);
    return endOfLine(bytes, at);
  };

  const findBus = (bytes: Buffer, from: number, to: number): number => {
    if (isName(buses[lastBus], bytes, from, to)) return lastBus;
    for (let i = 0; i < buses.length; i++)
      if (isName(buses[i], bytes, from, to)) {
        lastBus = i;
        return i;
      }
    if (buses.length >= MOST_BUSES || to - from > MOST_NAME_BYTES) return -1;
    buses.push(Buffer.from(bytes.subarray(from, to)));
    lastBus = buses.length - 1;
    return lastBus;
  };

  return {
    /** the frame that was parsed last */
    frame,
    parse,
    /** what kind of line it was that was no frame */
    fault: (): LineKind => fault,
    busNames: (): string[] => buses.map((name) => name.toString('utf8')),
  };
}

function isName(name: Buffer | undefined, bytes: Buffer, from: number, to: number): boolean {
  if (name === undefined || name.length !== to - from) return false;
  for (let i = 0; i < name.length; i++) if (name[i] !== bytes[from + i]) return false;
  return true;
}

/** `RX - -` or `TX B E`, which may stand before an identifier; nothing is skipped where it is not that. */
function skipDirection(bytes: Buffer, from: number): number {
  let at = from + 1;
  if (bytes[at] !== 88) return from;
  at += 1;
  while (bytes[at] === SPACE || bytes[at] === 45) at += 1;
  if (bytes[at] === 66 && bytes[at + 1] === SPACE) at += 1;
  while (bytes[at] === SPACE || bytes[at] === 45) at += 1;
  if (bytes[at] === 69 && bytes[at + 1] === SPACE) at += 1;
  while (bytes[at] === SPACE) at += 1;
  return at;
}

/** After the data there may be blanks, R or T for the direction, and a carriage return. */
function endOfLine(bytes: Buffer, from: number): number {
  let at = from;
  while (bytes[at] === SPACE) at += 1;
  if (at > from && (bytes[at] === 82 || bytes[at] === 84)) at += 1;
  while (bytes[at] === SPACE) at += 1;
  if (bytes[at] === CR) at += 1;
  return bytes[at] === LF ? at : -1;
}

function startsWith(bytes: Buffer, from: number, word: string): boolean {
  for (let i = 0; i < word.length; i++) if (bytes[from + i] !== word.charCodeAt(i)) return false;
  return true;
}
