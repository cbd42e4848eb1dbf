/** Of an array as `array_send` writes it: dimensions, flags, type, then length and lower bound of each dimension. */
const HEAD_BYTES = 12;
const DIMENSION_BYTES = 8;
const TO_1970_US = 946_684_800_000_000;
const TWO_32 = 4_294_967_296;
/** Numbers of the types in `pg_type`. */
const DOUBLE = 701;
const MOMENT = 1184;

/**
 * Doubles, and moments in ms since 1970, from what `encode(array_send(...), 'base64')` makes of an array, whatever its
 * dimensions, in order; NaN for what is null. No number is turned into decimals and back, and no object is made for one.
 */
export function readBinaryArray(base64: string): Float64Array {
  const bytes = Buffer.from(base64, 'base64');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const type = view.getInt32(8);
  if (type !== DOUBLE && type !== MOMENT)
    throw new Error(`readBinaryArray requires doubles or moments, not type ${type}`);
  const dimensions = view.getInt32(0);
  let count = dimensions === 0 ? 0 : 1;
  for (let i = 0; i < dimensions; i++) count *= view.getInt32(HEAD_BYTES + DIMENSION_BYTES * i);
  const values = new Float64Array(count);
  let at = HEAD_BYTES + DIMENSION_BYTES * dimensions;
  for (let i = 0; i < count; i++) {
    const isNull = view.getInt32(at) < 0;
    at += 4;
    if (isNull) values[i] = Number.NaN;
    else if (type === DOUBLE) values[i] = view.getFloat64(at);
    // Microseconds since 2000: the sum is below 2^53, so that only the division rounds.
    else values[i] = (view.getInt32(at) * TWO_32 + view.getUint32(at + 4) + TO_1970_US) / 1000;
    if (!isNull) at += 8;
  }
  return values;
}
