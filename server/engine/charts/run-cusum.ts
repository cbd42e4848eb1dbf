export interface Cusum {
  /** upper and lower sum after each value, unit of the values */
  high: number[];
  low: number[];
  /** place of the first value, from 0, with which a sum passes h; null where none does */
  firstHigh: number | null;
  firstLow: number | null;
  /** the earlier of both */
  firstAlarm: number | null;
}

/**
 * Tabular cumulative sum chart (CUSUM).
 *
 * high_i = max(0, high_{i-1} + y_i - target - k); low_i = max(0, low_{i-1} + target - k - y_i); alarm where a sum
 * is above h. Both start at 0.
 *
 * @param values in order, any unit
 * @param target level that the values should have, unit of the values
 * @param k      allowance, unit of the values; half the shift that matters
 * @param h      decision limit, unit of the values; usually 4 to 5 standard deviations
 * @returns both sums and the first alarms
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.3; Page (1954), Biometrika 41, 100-115.
 * Variant: the sums go on after an alarm. Edges: no values give no sums and no alarm.
 * Errors: throws on values that are not finite, and on k or h below 0.
 * @example runCusum({ values: [0, 1, 3], target: 0, k: 0.5, h: 2 }) // high [0, 0.5, 3], firstAlarm 2
 */
export function runCusum({
  values,
  target,
  k,
  h,
}: {
  values: readonly number[];
  target: number;
  k: number;
  h: number;
}): Cusum {
  if (![...values, target].every(Number.isFinite)) throw new Error('runCusum requires finite values');
  if (!(k >= 0 && h >= 0)) throw new Error('runCusum requires k and h of 0 or more');
  const chart: Cusum = { high: [], low: [], firstHigh: null, firstLow: null, firstAlarm: null };
  let [high, low] = [0, 0];
  for (const [i, value] of values.entries()) {
    high = Math.max(0, high + value - target - k);
    low = Math.max(0, low + target - k - value);
    chart.high.push(high);
    chart.low.push(low);
    if (high > h) chart.firstHigh ??= i;
    if (low > h) chart.firstLow ??= i;
    if (high > h || low > h) chart.firstAlarm ??= i;
  }
  return chart;
}
