/** Kendall's S by looking at every pair. */
export function plainKendallS(x: readonly number[], y: readonly number[]): number {
  let s = 0;
  for (let i = 0; i < x.length; i++)
    for (let j = i + 1; j < x.length; j++)
      s += Math.sign((x[j] ?? 0) - (x[i] ?? 0)) * Math.sign((y[j] ?? 0) - (y[i] ?? 0));
  return s;
}

/** Median of the slopes of all pairs with different x, from a list of them. */
export function plainTheilSenSlope(x: readonly number[], y: readonly number[]): number {
  const slopes = new Float64Array((x.length * (x.length - 1)) / 2);
  let n = 0;
  for (let i = 0; i < x.length; i++)
    for (let j = i + 1; j < x.length; j++) {
      const run = (x[j] ?? 0) - (x[i] ?? 0);
      if (run !== 0) slopes[n++] = ((y[j] ?? 0) - (y[i] ?? 0)) / run;
    }
  const all = slopes.subarray(0, n);
  const upper = select(all, n >> 1);
  if (n % 2 === 1) return upper;
  // What stands before the selected place is not larger.
  let lower = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n >> 1; i++) lower = Math.max(lower, all[i] ?? 0);
  return (lower + upper) / 2;
}

/** The value that would stand at `place` were they sorted; parts them around it (Hoare's selection). */
function select(values: Float64Array, place: number): number {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1] ?? 0;
    let i = low;
    let j = high;
    while (i <= j) {
      while ((values[i] ?? 0) < pivot) i++;
      while ((values[j] ?? 0) > pivot) j--;
      if (i > j) break;
      const kept = values[i] ?? 0;
      values[i++] = values[j] ?? 0;
      values[j--] = kept;
    }
    if (place <= j) high = j;
    else if (place >= i) low = i;
    else break;
  }
  return values[place] ?? Number.NaN;
}
