import type { WearCase } from './wear-model.ts';

/** From so many kilometres since its onset on a rise is no longer young. By simulated fleets; see docs/measurements.md. */
const GROWN_KM = 12_000;

/**
 * Youth of a rise: how little of it has been driven.
 *
 * Mean of max(0, 1 - gone / 12,000 km) over the cases that wear or have jumped, by their weights; gone from onset to now.
 *
 * @param cases of one clutch
 * @param nowKm odometer of the last point, km
 * @returns 1 where it begins now, 0 where it is 12,000 km old or older
 * Source: own rule. Edges: cases without a change do not count; 0 where there are no others; an onset to come counts as now.
 * Errors: none.
 * @example measureYouth([makeWearCase({ onsetKm: 100_000 })], 106_000) // 0.5
 */
export function measureYouth(
  cases: readonly Pick<WearCase, 'kind' | 'onsetKm' | 'weight'>[],
  nowKm: number,
): number {
  let weight = 0;
  let young = 0;
  for (const one of cases) {
    if (one.kind === 'flat') continue;
    const goneKm = Math.max(0, nowKm - one.onsetKm);
    weight += one.weight;
    young += one.weight * Math.max(0, 1 - goneKm / GROWN_KM);
  }
  return weight > 0 ? young / weight : 0;
}
