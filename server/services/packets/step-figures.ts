/** Figures with the same number of decimals, so many that those that differ show it; as few as may be where none do. */
export function decimalsApart(values: readonly number[], least: number, most = 3): string[] {
  // sums of decimal figures are not exact
  const distinct = new Set(values.map((value) => value.toPrecision(9))).size;
  const show = (digits: number) => values.map((value) => withoutMinusZero(value.toFixed(digits)));
  for (let digits = least; digits <= most; digits++)
    if (new Set(show(digits)).size >= distinct) return show(digits);
  return show(least);
}

const withoutMinusZero = (text: string) => (Number(text) === 0 ? text.replace('-', '') : text);

/** Currents in A without their unit: two decimals below 2 A, else one, more where they would look the same. */
export const ampsApart = (values: readonly number[]): string[] =>
  decimalsApart(values, Math.max(...values.map(Math.abs)) < 2 ? 2 : 1);

/** A figure as somebody entered it. */
export const asEntered = (value: number): string =>
  value.toLocaleString('en-US', { maximumFractionDigits: 6 });

/** Decimals that a gauge with this smallest step shows. */
export function decimalsOf(step: number): number {
  for (let digits = 0; digits < 4; digits++)
    if (Math.abs(step * 10 ** digits - Math.round(step * 10 ** digits)) < 1e-6) return digits;
  return 4;
}

export const pressureUnits = { bar: 'bar', kpa: 'kPa', psi: 'psi' } as const;
