/** Of an array as `array_send` writes it: dimensions, flags, type, then length and lower bound of each dimension. */
const HEAD_BYTES = 12;
const DIMENSION_BYTES = 8;
const TO_1970_US = 946_684_800_000_000;
const TWO_32 = 4_294_967_296;

/** By the number of the element's type in `pg_type`: how one is read. */
const readers: Record<number, (view: DataView, at: number) => number> = {
  21: (view, at) => view.getInt16(at),
  23: (view, at) => view.getInt32(at),
  701: (view, at) => view.getFloat64(at),
  // Microseconds since 2000, as ms since 1970: the sum is below 2^53, so that only the division rounds.
  1184: (view, at) => (view.getInt32(at) * TWO_32 + view.getUint32(at + 4) + TO_1970_US) / 1000,
};

/**
 * Numbers, and moments in ms since 1970, from what `array_send` makes of an array, whatever its dimensions, in order. It
 * spares both ends turning numbers into text and back.
 */
export function readBinaryArray(bytes: Buffer): (number | null)[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const read = readers[view.getInt32(8)];
  if (read === undefined)
    throw new Error(`readBinaryArray requires numbers or moments, not type ${view.getInt32(8)}`);
  const values: (number | null)[] = [];
  let at = HEAD_BYTES + DIMENSION_BYTES * view.getInt32(0);
  while (at < bytes.length) {
    const length = view.getInt32(at);
    at += 4;
    values.push(length < 0 ? null : read(view, at));
    at += Math.max(0, length);
  }
  return values;
}

/** The same of an array in which nothing is null. */
export function readBinaryNumbers(bytes: Buffer): number[] {
  const values = readBinaryArray(bytes);
  if (values.includes(null)) throw new Error('readBinaryNumbers requires an array without null');
  return values as number[];
}
