import { tQuantile } from '#server/engine/distributions/t-quantile.ts';
import { estimateKaplanMeier } from '#server/engine/life/estimate-kaplan-meier.ts';

/** A chance that was stated, and what came. */
export interface StatedChance {
  vehicle: number;
  /** from 0 to 1 */
  chance: number;
  /** to the event, or as far as the life was followed; above 0 */
  drivenKm: number;
  failed: boolean;
}

export interface CalibrationRow {
  from: number;
  to: number;
  n: number;
  vehicles: number;
  stated: number;
  seen: number | null;
  low: number | null;
  high: number | null;
}

/** Borders of the bins: close together where most chances lie. */
const EDGES: readonly number[] = [0, 0.02, 0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 1];
/** Fewer vehicles that failed or were followed over the whole horizon tell nothing. Own choice. */
const LEAST_VEHICLES = 3;
const MOST_GROUPS = 50;
const TAIL = 0.025;

/**
 * Stated chances against what came of them, in bins of the chance.
 *
 * seen = 1 - S(horizon), S the Kaplan-Meier estimate over the looks of the bin. Looks at one vehicle go together, so the
 * bounds are those of a jackknife over vehicles: seen +- t se, se^2 = (G - 1) / G * sum (seen without group g - their
 * mean)^2, the vehicles in G groups, one each or 50 at the most, t of Student with G - 1 degrees of freedom. Where all or
 * none failed: exact binomial bounds as if each vehicle that failed or drove the horizon had been looked at once; one that
 * was followed less far tells nothing there.
 *
 * @param looks     chances stated, any order
 * @param horizonKm kilometres that they were stated for
 * @returns a row for each bin that has looks
 * Source: Efron and Stein (1981), Annals of Statistics 9, 586-596; Clopper and Pearson (1934), Biometrika 26, 404-413 (both
 * from memory). Edges: null where fewer than three vehicles failed or drove the horizon; bounds are held within 0 and 1.
 * Errors: as {@link estimateKaplanMeier}.
 * @example checkCalibration([], 5_000) // []
 */
export function checkCalibration(looks: readonly StatedChance[], horizonKm: number): CalibrationRow[] {
  return EDGES.slice(0, -1).flatMap((from, i): CalibrationRow[] => {
    const to = EDGES[i + 1] ?? 1;
    const inside = looks.filter(({ chance }) => chance >= from && (chance < to || (to === 1 && chance <= 1)));
    if (inside.length === 0) return [];
    const vehicles = [...new Set(inside.map(({ vehicle }) => vehicle))];
    const row = {
      from,
      to,
      n: inside.length,
      vehicles: vehicles.length,
      stated: inside.reduce((sum, { chance }) => sum + chance, 0) / inside.length,
    };
    const told = inside.filter(({ drivenKm, failed }) => failed || drivenKm >= horizonKm);
    const toldVehicles = new Set(told.map(({ vehicle }) => vehicle)).size;
    if (toldVehicles < LEAST_VEHICLES) return [{ ...row, seen: null, low: null, high: null }];
    const seen = shareFailed(inside, horizonKm);
    return [{ ...row, seen, ...boundShare(seen, inside, vehicles, toldVehicles, horizonKm) }];
  });
}

function shareFailed(looks: readonly StatedChance[], horizonKm: number): number {
  const lives = looks.map(({ drivenKm, failed }) => {
    const event = failed && drivenKm <= horizonKm;
    return { entry: 0, exit: event ? drivenKm : Math.min(drivenKm, horizonKm), event, count: 1 };
  });
  if (!lives.some(({ event }) => event)) return 0;
  return 1 - (estimateKaplanMeier(lives, 0.95).at(-1)?.survival ?? 1);
}

function boundShare(
  seen: number,
  looks: readonly StatedChance[],
  vehicles: readonly number[],
  toldVehicles: number,
  horizonKm: number,
): { low: number; high: number } {
  const oneSided = TAIL ** (1 / toldVehicles);
  if (seen <= 0) return { low: 0, high: 1 - oneSided };
  if (seen >= 1) return { low: oneSided, high: 1 };
  const groups = Math.min(MOST_GROUPS, vehicles.length);
  const groupOf = new Map(vehicles.map((vehicle, i) => [vehicle, i % groups]));
  const without = Array.from({ length: groups }, (_, g) =>
    shareFailed(
      looks.filter(({ vehicle }) => groupOf.get(vehicle) !== g),
      horizonKm,
    ),
  );
  const mean = without.reduce((a, b) => a + b, 0) / groups;
  const squares = without.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const reach = tQuantile(1 - TAIL, groups - 1) * Math.sqrt(((groups - 1) / groups) * squares);
  return { low: Math.max(0, seen - reach), high: Math.min(1, seen + reach) };
}
