import type { RankingRow } from '#server/contract/ranking.ts';
import { averagePrecision } from '#tests/helpers/average-precision.ts';
import type { SimulatedFleet, VehicleTruth } from './fleet/simulated-fleet.ts';
import type { Look } from './run-fleet.ts';

/** A share, as what it was counted from. */
export interface Share {
  of: number;
  hit: number;
}

/** How one way of making a list did on one fleet. */
export interface ListScore {
  averagePrecision: number;
  /** within 2,000 km of the limit, and on the list of those to inspect */
  near: Share;
  /** no onset yet, and on that list all the same */
  healthy: Share;
  /** km between the first time on that list and the crossing, a crossing each; 0 where it never was; none of one look */
  noticeKm: number[];
}

export interface Forecast {
  unit: string;
  wear: VehicleTruth['wear'];
  truthKm: number;
  p10: number | null;
  p50: number | null;
  p90: number | null;
}

export interface FleetScore {
  name: string;
  family: string;
  vehicles: number;
  /** crossing within 5,000 km: what a list is asked to find */
  wanted: number;
  oracle: number;
  engine: ListScore;
  /** at the same number of inspections as the engine asks for */
  level: ListScore;
  change: ListScore;
  line: ListScore;
  forecasts: Forecast[];
  lineForecasts: Forecast[];
  stated: StatedChance[];
}

/** A chance of having crossed or crossing within 5,000 km that the list gave at a look, and what became of it. */
export interface StatedChance {
  unit: string;
  chance: number;
  /** crosses within 5,000 km, or has crossed */
  came: boolean;
  /** has crossed already, which the list cannot know for certain */
  isPast: boolean;
  /** so lately fitted that the list cannot know of it: its chance is still that of the converter before */
  isNew: boolean;
}

const WANTED_KM = 5_000;
const NEAR_KM = 2_000;
/** Two whole stretches of a converter, and what is left of the one that it was fitted in. */
const NEW_KM = 1_500;
const FORECAST_KM = 20_000;

/** Scores the looks at a fleet against its truth: lists and forecasts at the last one, notice over all of them. */
export function scoreFleet(fleet: SimulatedFleet, looks: readonly Look[]): FleetScore {
  const last = looks.at(-1);
  if (last === undefined) throw new Error('scoreFleet requires at least one look');
  const at = last.ms;
  const seen = fleet.truth.filter((one) => one.firstReadingMs < at);
  const left = new Map(seen.map((one) => [one.unit, one.kmToLimitAt(at)]));
  const isWanted = (unit: string) => (left.get(unit) ?? Number.POSITIVE_INFINITY) <= WANTED_KM;
  const near = seen.filter(({ unit }) => (left.get(unit) ?? Number.POSITIVE_INFINITY) <= NEAR_KM);
  const healthy = seen.filter((one) => !one.hasOnsetAt(at));
  const score = (listAt: (look: Look) => string[], flaggedAt: (look: Look) => Set<string>): ListScore => {
    const flagged = flaggedAt(last);
    const count = (some: readonly VehicleTruth[]): Share => ({
      of: some.length,
      hit: some.filter(({ unit }) => flagged.has(unit)).length,
    });
    return {
      averagePrecision: averagePrecision(listAt(last), isWanted),
      near: count(near),
      healthy: count(healthy),
      noticeKm: noticesOf(seen, looks, flaggedAt),
    };
  };
  /** The first of a plain list, as many as the engine flags: the same number of inspections. */
  const firstOf = (listAt: (look: Look) => string[]) => (look: Look) =>
    new Set(listAt(look).slice(0, flaggedBy(look.rows).size));
  const plain = (listAt: (look: Look) => string[]) => score(listAt, firstOf(listAt));
  const oracle = [...seen].sort(
    (a, b) => b.referenceSlipAt(at) / b.limitRpm - a.referenceSlipAt(at) / a.limitRpm,
  );
  const drifting = seen.filter((one) => {
    const km = left.get(one.unit) ?? 0;
    return one.hasOnsetAt(at) && km > 0 && km < FORECAST_KM;
  });
  const rowOf = new Map(last.rows.map((row) => [row.vehicle, row]));
  const lineOf = new Map(last.plain.line.map((one) => [one.unit, one.kmToLimit]));
  return {
    name: fleet.name,
    family: fleet.family,
    vehicles: seen.length,
    wanted: seen.filter(({ unit }) => isWanted(unit)).length,
    oracle: averagePrecision(
      oracle.map(({ unit }) => unit),
      isWanted,
    ),
    engine: score(
      ({ rows }) => rows.map((row) => row.vehicle),
      ({ rows }) => flaggedBy(rows),
    ),
    level: plain((look) => look.plain.level),
    change: plain((look) => look.plain.change),
    line: plain((look) => look.plain.line.map(({ unit }) => unit)),
    forecasts: drifting.map(({ unit, wear }) => {
      const { p10 = null, p50 = null, p90 = null } = rowOf.get(unit)?.km_to_limit ?? {};
      return { unit, wear, truthKm: left.get(unit) ?? 0, p10, p50, p90 };
    }),
    lineForecasts: drifting.map(({ unit, wear }) => {
      const p50 = lineOf.get(unit) ?? null;
      return { unit, wear, truthKm: left.get(unit) ?? 0, p10: null, p50, p90: null };
    }),
    stated: looks.flatMap((look) => statedAt(look, seen)),
  };
}

function statedAt({ ms, rows }: Look, vehicles: readonly VehicleTruth[]): StatedChance[] {
  const truthOf = new Map(vehicles.map((one) => [one.unit, one]));
  return rows.flatMap(({ vehicle: unit, chance_within_horizon: chance }) => {
    const truth = truthOf.get(unit);
    if (chance === null || truth === undefined) return [];
    const leftKm = truth.kmToLimitAt(ms) ?? Number.POSITIVE_INFINITY;
    const isNew = truth.replacements.some((one) => one.ms <= ms && truth.odometerAt(ms) - one.km < NEW_KM);
    return [{ unit, chance, came: leftKm <= WANTED_KM, isPast: leftKm <= 0, isNew }];
  });
}

const flaggedBy = (rows: readonly RankingRow[]): Set<string> =>
  new Set(rows.filter(({ grade }) => grade === 'hold' || grade === 'book').map((row) => row.vehicle));

/** Kilometres from the first flag in a life to its crossing; of crossings that had readings for some weeks before. */
function noticesOf(
  seen: readonly VehicleTruth[],
  looks: readonly Look[],
  flaggedAt: (look: Look) => Set<string>,
): number[] {
  if (looks.length < 2) return [];
  const flags = looks.map((look) => ({ ms: look.ms, units: flaggedAt(look) }));
  return seen.flatMap((one) =>
    one.crossings
      .filter((crossing) => crossing.ms - one.firstReadingMs > LEAST_HISTORY_MS)
      .map((crossing) => {
        const fittedMs = Math.max(
          0,
          ...one.replacements.filter(({ ms }) => ms < crossing.ms).map(({ ms }) => ms),
        );
        const first = flags.find(
          ({ ms, units }) => ms > fittedMs && ms <= crossing.ms && units.has(one.unit),
        );
        return first === undefined ? 0 : crossing.km - one.odometerAt(first.ms);
      }),
  );
}

/** A vehicle that crosses sooner after its first reading was slipping when it came: nobody could give notice. */
const LEAST_HISTORY_MS = 60 * 86_400_000;
