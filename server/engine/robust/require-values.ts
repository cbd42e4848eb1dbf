export interface WeightedValue {
  value: number;
  weight: number;
}

/**
 * Values with their weights, after a check that they can be worked with.
 *
 * @param caller name of the function that was called, for the error
 * @param values any unit
 * @param weight not negative, one for each value; without it each weighs 1
 * @returns the values that weigh anything, in the order given
 * Source: own rule. Edges: none give none.
 * Errors: throws `<caller> requires ...` on unequal lengths, values that are not finite, negative weights.
 * @example requireValues('f', [3, 4], [1, 0]) // [{ value: 3, weight: 1 }]
 */
export function requireValues(
  caller: string,
  values: readonly number[],
  weight?: readonly number[],
): WeightedValue[] {
  if (weight !== undefined && weight.length !== values.length) {
    throw new Error(`${caller} requires a weight for each value`);
  }
  if (!values.every(Number.isFinite)) throw new Error(`${caller} requires finite values`);
  if (weight !== undefined && !weight.every((w) => Number.isFinite(w) && w >= 0)) {
    throw new Error(`${caller} requires finite weights of 0 or more`);
  }
  return values.map((value, i) => ({ value, weight: weight?.[i] ?? 1 })).filter((point) => point.weight > 0);
}
