import { formatWhole } from './format-number.ts';

/** How often chance alone would show as much, from a p value: '1 time in 200'. */
export function sayChance(p: number): string {
  if (p > 0.5) return 'more often than not';
  if (p < 1e-4) return 'less than 1 time in 10,000';
  const times = 1 / p;
  const size = 10 ** Math.max(0, Math.floor(Math.log10(times)) - 1);
  return `1 time in ${formatWhole(Math.round(times / size) * size)}`;
}
