/**
 * Sample autocorrelation of a series at one lag.
 *
 * rho(k) = sum over t = 1 .. n - k of (y_t - ymean)(y_{t+k} - ymean) / sum (y_t - ymean)^2: divisor n in both.
 *
 * @param values evenly spaced, in order, any unit
 * @param lag    in steps, whole, 0 or more
 * @returns -1 to 1; 0 where all values are equal or the lag is beyond the series
 * Source: Box and Jenkins (1976), Time Series Analysis, section 2.1.5 (from memory). Edges: as said. Errors: none.
 * @example measureAutocorrelation([1, 2, 3, 4], 1) // 0.25
 */
export function measureAutocorrelation(values: readonly number[], lag: number): number {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  let [product, square] = [0, 0];
  for (let t = 0; t < values.length; t++) {
    const here = (values[t] ?? 0) - mean;
    square += here * here;
    if (t + lag < values.length) product += here * ((values[t + lag] ?? 0) - mean);
  }
  return square > 0 ? product / square : 0;
}
