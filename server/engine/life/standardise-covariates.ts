import { type Declined, decline } from '#server/engine/declined.ts';

export interface Standardised {
  /** row by row, a row a life */
  values: Float64Array;
  /** of each covariate, between the lives; sd with n - 1 */
  columns: { mean: number; sd: number }[];
}

/** A standard deviation of so small a part of the values is rounding. */
const NOTHING = 1e-13;

/**
 * Covariates brought to mean 0 and standard deviation 1 between the lives.
 *
 * u = (x - mean) / sd, mean and sd weighted by count, sd with n - 1.
 *
 * @param lives with one number a covariate, and their counts
 * @param names of the covariates
 * @returns values, and mean and sd of each covariate; declined, with its name, where one is the same throughout
 * Source: own arrangement. Edges: one life alone has all covariates the same. Errors: none.
 * @example standardiseCovariates([{ count: 1, covariates: [1] }, { count: 1, covariates: [3] }], ['x']) // mean 2, sd 1.414214
 */
export function standardiseCovariates(
  lives: readonly { count: number; covariates: readonly number[] }[],
  names: readonly string[],
): Standardised | Declined {
  let n = 0;
  for (const { count } of lives) n += count;
  const columns: Standardised['columns'] = [];
  for (const [k, name] of names.entries()) {
    let mean = 0;
    let largest = 0;
    for (const { count, covariates } of lives) {
      mean += (count / n) * (covariates[k] ?? 0);
      largest = Math.max(largest, Math.abs(covariates[k] ?? 0));
    }
    let squares = 0;
    for (const { count, covariates } of lives) squares += count * ((covariates[k] ?? 0) - mean) ** 2;
    const sd = Math.sqrt(squares / (n - 1));
    if (!(sd > NOTHING * largest))
      return decline(
        `"${name}" is the same in all lives`,
        'a covariate that differs between lives, or leave it out',
        `${lives[0]?.covariates[k] ?? 0} throughout`,
      );
    columns.push({ mean, sd });
  }
  const values = new Float64Array(lives.length * names.length);
  for (const [i, { covariates }] of lives.entries())
    for (const [k, { mean, sd }] of columns.entries())
      values[i * names.length + k] = ((covariates[k] ?? 0) - mean) / sd;
  return { values, columns };
}
