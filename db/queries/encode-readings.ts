import { COPY_HEADER, EPOCH_2000_MS, TEXT_OID, TWO_32 } from './copy-format.ts';
import { NO_GEAR, NOT_SAID, REALS, type ReadingColumns } from './reading-columns.ts';

const END = Buffer.from([0xff, 0xff]);
/** Count of columns, then each with its length before it: vehicle, at, reals, gear, shifting, codes, arrived_at. */
const COLUMNS = 6 + REALS;
const MOST_ROW_BYTES = 2 + 8 + 12 + REALS * 8 + 6 + 5 + 4 + 12;

export interface EncodedReadings {
  /** in COPY's binary format, with header and end mark */
  bytes: Buffer;
  /** where each row begins; one more, where the last ends */
  starts: Uint32Array;
}

/**
 * Rows as COPY takes them in its binary format (PostgreSQL manual, COPY, Binary Format), in the given order: vehicle, at,
 * odometer to seconds, gear, shifting, codes and arrived_at. That last one is `nowMs` for rows before `lateMs`.
 */
export function encodeReadings(
  columns: ReadingColumns,
  order: Int32Array,
  keyOfPlace: Int32Array,
  { nowMs, lateMs }: { nowMs: number; lateMs: number },
  findRoom: (bytes: number) => Buffer = Buffer.allocUnsafe,
): EncodedReadings {
  const codes = encodeCodes(columns.codes);
  let size = COPY_HEADER.length + order.length * MOST_ROW_BYTES + END.length;
  for (const one of codes.values()) size += one.length;
  const bytes = findRoom(size);
  const view = new DataView(bytes.buffer, bytes.byteOffset, size);
  const starts = new Uint32Array(order.length + 1);
  const { unit, atMs, reals, gear, shifting } = columns;
  let at = COPY_HEADER.copy(bytes);

  const instant = (ms: number): void => {
    const micros = (ms - EPOCH_2000_MS) * 1000;
    const high = Math.floor(micros / TWO_32);
    view.setInt32(at, 8);
    view.setInt32(at + 4, high);
    view.setUint32(at + 8, micros - high * TWO_32);
    at += 12;
  };

  for (let i = 0; i < order.length; i++) {
    const row = order[i] ?? 0;
    starts[i] = at;
    view.setInt16(at, COLUMNS);
    view.setInt32(at + 2, 4);
    view.setInt32(at + 6, keyOfPlace[unit[row] ?? 0] ?? 0);
    at += 10;
    const ms = atMs[row] ?? 0;
    instant(ms);
    for (let k = row * REALS; k < row * REALS + REALS; k++) {
      const value = reals[k] ?? Number.NaN;
      if (Number.isNaN(value)) {
        view.setInt32(at, -1);
        at += 4;
      } else {
        view.setInt32(at, 4);
        view.setFloat32(at + 4, value);
        at += 8;
      }
    }
    const ownGear = gear[row] ?? NO_GEAR;
    view.setInt32(at, ownGear === NO_GEAR ? -1 : 2);
    at += 4;
    if (ownGear !== NO_GEAR) {
      view.setInt16(at, ownGear);
      at += 2;
    }
    const isShifting = shifting[row] ?? NOT_SAID;
    view.setInt32(at, isShifting === NOT_SAID ? -1 : 1);
    at += 4;
    if (isShifting !== NOT_SAID) view.setInt8(at++, isShifting);
    const ownCodes = codes.get(row);
    if (ownCodes === undefined) {
      view.setInt32(at, -1);
      at += 4;
    } else at += ownCodes.copy(bytes, at);
    if (ms < lateMs) instant(nowMs);
    else {
      view.setInt32(at, -1);
      at += 4;
    }
  }
  starts[order.length] = at;
  at += END.copy(bytes, at);
  return { bytes: bytes.subarray(0, at), starts };
}

/** Arrays of text, each with its length before it: dimensions, flags, type, length, lower bound, then the texts. */
function encodeCodes(codes: ReadonlyMap<number, readonly string[]>): Map<number, Buffer> {
  const encoded = new Map<number, Buffer>();
  for (const [row, texts] of codes) {
    const items = texts.flatMap((text) => {
      const item = Buffer.from(text);
      return [int32s(item.length), item];
    });
    const array = Buffer.concat([int32s(1, 0, TEXT_OID, texts.length, 1), ...items]);
    encoded.set(row, Buffer.concat([int32s(array.length), array]));
  }
  return encoded;
}

function int32s(...values: number[]): Buffer {
  const bytes = Buffer.alloc(4 * values.length);
  for (const [i, value] of values.entries()) bytes.writeInt32BE(value, 4 * i);
  return bytes;
}

/** What a row holds but for the count of columns and when it arrived, which must be null. */
export const contentOf = ({ bytes, starts }: EncodedReadings, i: number): Buffer =>
  bytes.subarray((starts[i] ?? 0) + 2, (starts[i + 1] ?? 0) - 4);

/** A whole COPY of some of the rows: those whose number passes, in their order. */
export function copyOf({ bytes, starts }: EncodedReadings, wanted: Uint8Array | null): Buffer {
  if (wanted === null) return bytes;
  const parts: Buffer[] = [COPY_HEADER];
  for (let i = 0; i < wanted.length; ) {
    if (wanted[i] !== 1) {
      i++;
      continue;
    }
    let to = i;
    while (to < wanted.length && wanted[to] === 1) to++;
    parts.push(bytes.subarray(starts[i], starts[to]));
    i = to;
  }
  parts.push(END);
  return Buffer.concat(parts);
}
