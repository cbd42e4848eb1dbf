/** Of an array as `array_send` writes it: dimensions, flags, type, then length and lower bound of each dimension. */
const HEAD_BYTES = 12;
const DIMENSION_BYTES = 8;
const TO_1970_US = 946_684_800_000_000;
const TWO_32 = 4_294_967_296;
/** Numbers of the types in `pg_type`. */
const SMALLINT = 21;
const INTEGER = 23;
const DOUBLE = 701;
const MOMENT = 1184;

/** As {@link readArrayAt}, from what `encode(array_send(...), 'base64')` makes of an array. */
export function readBinaryArray(base64: string): Float64Array {
  const bytes = Buffer.from(base64, 'base64');
  return readArrayAt(new DataView(bytes.buffer, bytes.byteOffset, bytes.length), 0);
}

/**
 * Numbers, and moments in ms since 1970, of an array as PostgreSQL sends it, whatever its dimensions, in order; NaN for what is
 * null. No number is turned into decimals and back, and no object is made for one.
 */
export function readArrayAt(view: DataView, start: number): Float64Array {
  const type = view.getInt32(start + 8);
  if (type !== SMALLINT && type !== INTEGER && type !== DOUBLE && type !== MOMENT)
    throw new Error(`readArrayAt requires integers, doubles or moments, not type ${type}`);
  const dimensions = view.getInt32(start);
  let at = start + HEAD_BYTES;
  let count = dimensions === 0 ? 0 : 1;
  for (let i = 0; i < dimensions; i++, at += DIMENSION_BYTES) count *= view.getInt32(at);
  const values = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const length = view.getInt32(at);
    at += 4;
    values[i] = length < 0 ? Number.NaN : readValue(view, at, type);
    at += Math.max(0, length);
  }
  return values;
}

function readValue(view: DataView, at: number, type: number): number {
  if (type === DOUBLE) return view.getFloat64(at);
  if (type === INTEGER) return view.getInt32(at);
  if (type === SMALLINT) return view.getInt16(at);
  // Microseconds since 2000: the sum is below 2^53, so that only the division rounds.
  return (view.getInt32(at) * TWO_32 + view.getUint32(at + 4) + TO_1970_US) / 1000;
}

/** Some of the values, as JavaScript's own numbers. */
export function takeNumbers(values: Float64Array, from: number, count: number): number[] {
  const taken: number[] = [];
  for (let i = from; i < from + count; i++) taken.push(values[i] ?? 0);
  return taken;
}

/** NaN stands for null. */
export const numberOrNull = (value = Number.NaN): number | null => (Number.isNaN(value) ? null : value);
