import type { Found } from './use-compared.ts';

/** Each compared vehicle with the one that follows it by rank; those that are not known are left out. */
export function orderPairs(vehicles: readonly string[], found: Found): [above: string, below: string][] {
  const ranked = vehicles
    .flatMap((vehicle) => {
      const row = found.get(vehicle);
      return row === undefined || typeof row === 'string' ? [] : [row];
    })
    .sort((a, b) => a.rank - b.rank);
  return ranked.slice(1).map((row, i) => [ranked[i]?.vehicle ?? '', row.vehicle]);
}
