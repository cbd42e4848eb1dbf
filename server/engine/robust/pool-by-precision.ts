export interface Pooled {
  mean: number;
  se: number;
}

/**
 * Mean of estimates by their precision.
 *
 * mean = sum(y / se^2) / sum(1 / se^2), se = 1 / sqrt(sum(1 / se^2)).
 *
 * @param values any unit
 * @param errors standard error of each, positive, same unit
 * @returns mean and its standard error; NaN and infinite where there are none
 * Source: inverse-variance weighting, any textbook. Edges: one value is its own mean. Errors: throws on unequal lengths.
 * @example poolByPrecision([1, 3], [1, 1]) // mean 2, se 0.707
 */
export function poolByPrecision(values: readonly number[], errors: readonly number[]): Pooled {
  if (values.length !== errors.length) throw new Error('poolByPrecision requires an error for each value');
  let information = 0;
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const weight = 1 / (errors[i] ?? Number.NaN) ** 2;
    information += weight;
    sum += weight * (values[i] ?? Number.NaN);
  }
  return { mean: sum / information, se: 1 / Math.sqrt(information) };
}
