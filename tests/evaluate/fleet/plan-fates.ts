import type { RandomSource } from './random-source.ts';
import type { FleetRecipe } from './simulated-fleet.ts';

/** Where a vehicle's present converter stands at the end of the history. */
export type Fate = 'healthy' | 'past' | 'near' | 'middle' | 'far';

export interface VehicleFate {
  fate: Fate;
  /** A former converter failed, or was changed before it did, within the history. */
  replaced: 'failed' | 'preventive' | null;
  /** Comes late, drives little and wears slowly: already slips when first seen. */
  slipsOnArrival: boolean;
}

/** Shares of the fleet at the end of the history; the rest is healthy. */
const PAST = 0.02;
/** Within 5,000 km of the limit. */
const NEAR = 0.075;
/** 5,000 to 20,000 km from it. */
const MIDDLE = 0.085;
/** Drifting, but further away. */
const FAR = 0.095;
const SLIPS_ON_ARRIVAL = 0.013;

/** One fate a vehicle, shuffled. Shares vary by a tenth between fleets. */
export function planFates(recipe: FleetRecipe, random: RandomSource): VehicleFate[] {
  const count = (share: number) =>
    Math.max(share > 0 ? 1 : 0, Math.round(recipe.vehicles * share * random.between(0.9, 1.1)));
  const fates: VehicleFate[] = [];
  const add = (n: number, fate: Fate, replaced: VehicleFate['replaced'] = null, slipsOnArrival = false) => {
    for (let i = 0; i < n && fates.length < recipe.vehicles; i++)
      fates.push({ fate, replaced, slipsOnArrival });
  };
  const arrivals = count(SLIPS_ON_ARRIVAL);
  add(arrivals, 'near', null, true);
  add(Math.max(0, count(NEAR) - arrivals), 'near');
  add(count(PAST), 'past');
  add(count(MIDDLE), 'middle');
  add(count(FAR), 'far');
  const failed = count(recipe.failedShare);
  const failedAgain = Math.round(failed * 0.12);
  add(failedAgain, 'middle', 'failed');
  add(failed - failedAgain, 'healthy', 'failed');
  add(count(recipe.preventiveShare), 'healthy', 'preventive');
  add(recipe.vehicles, 'healthy');
  shuffle(fates, random);
  return fates;
}

function shuffle<T>(items: T[], random: RandomSource): void {
  for (let i = items.length - 1; i > 0; i--) {
    const j = random.whole(0, i);
    const swap = items[i] as T;
    items[i] = items[j] as T;
    items[j] = swap;
  }
}
