import { CODE_CHANCE } from '#server/engine/ranking/expect-avoided-cost.ts';

/** A clutch that has reached its limit fails within so many kilometres more, at any of them alike. Own assumption. */
const SPENT_KM = 1_000;

/** What is stored of a vehicle: kilometres ahead, rising, and the chance of reaching the limit or failing within them. */
export type StoredChances = readonly (readonly [km: number, chance: number])[];

/**
 * Chance of failing on the road within some kilometres.
 *
 * R(s) = chance of reaching the limit within s km: straight between the stored points, from 0 at 0 km, constant beyond.
 * F(km) = (1 / 1,000 km) * integral of R(s) ds from max(0, km - 1,000 km) to km: a clutch that has reached its limit
 * drives on for up to 1,000 km. Without that, one that is past its limit today would have failed by tomorrow, and no
 * day but today would be worth anything.
 * A trouble code that names the clutch stands for a chance of 0.1 within the horizon of the list; here it grows evenly
 * with the way up to that: C(km) = 0.1 * min(1, km / horizon). The chance is max(F, C).
 *
 * @param chances   as stored
 * @param codes     number of trouble codes that name the clutch
 * @param horizonKm of the list, km
 * @param km        way ahead, km
 * @returns chance from 0 to 1, rising with the way
 * Source: own rule; both assumptions have no source. Edges: 0 for no way. Failures without notice are spread over the
 * 1,000 km too. Errors: none.
 * @example chanceOnRoad([[1000, 1]], 0, 5000, 1000) // 0.5
 */
export function chanceOnRoad(chances: StoredChances, codes: number, horizonKm: number, km: number): number {
  if (!(km > 0)) return 0;
  const spent = (sumUpTo(chances, km) - sumUpTo(chances, Math.max(0, km - SPENT_KM))) / SPENT_KM;
  const coded = codes > 0 ? CODE_CHANCE * Math.min(1, km / horizonKm) : 0;
  return Math.min(1, Math.max(spent, coded));
}

/** Integral of the stored chances from 0 to some way, km. */
function sumUpTo(chances: StoredChances, km: number): number {
  let sum = 0;
  let [fromKm, from] = [0, 0];
  for (const [toKm, to] of chances) {
    if (toKm >= km) {
      const at = toKm > fromKm ? from + ((to - from) * (km - fromKm)) / (toKm - fromKm) : from;
      return sum + ((from + at) / 2) * (km - fromKm);
    }
    sum += ((from + to) / 2) * (toKm - fromKm);
    [fromKm, from] = [toKm, to];
  }
  return sum + from * (km - fromKm);
}
