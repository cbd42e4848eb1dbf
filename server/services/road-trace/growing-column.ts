/** Numbers that come one by one, kept in eight bytes each. */
export function createGrowingColumn() {
  let values = new Float64Array(4096);
  let length = 0;
  return {
    push: (value: number): void => {
      if (length === values.length) {
        const more = new Float64Array(2 * length);
        more.set(values);
        values = more;
      }
      values[length] = value;
      length += 1;
    },
    get length(): number {
      return length;
    },
    get last(): number {
      return length === 0 ? Number.NaN : (values[length - 1] ?? Number.NaN);
    },
    /** all of them, without a copy */
    get values(): Float64Array {
      return values.subarray(0, length);
    },
  };
}
