import type { RuleScore } from '#server/contract/replay.ts';
import { findAskings } from '#server/engine/replay/find-askings.ts';
import { firstWarning, type Warning } from '#server/engine/replay/first-warning.ts';
import { judgeAsking } from '#server/engine/replay/judge-asking.ts';
import type { AskedOf, JudgedAsking, LifeCourse, LifeEvent } from '#server/engine/replay/replay-model.ts';
import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import type { ReplayedVehicle } from './replayed-vehicle.ts';

/** A failure of the period, and whose it is. */
export interface CameTrue {
  vehicle: ReplayedVehicle;
  /** its place among the vehicles */
  place: number;
  course: ReplayedVehicle['courses'][number] & { event: LifeEvent };
}

/** What one platform's inspections and failures cost. */
export interface RuleCosts {
  /** road failure less planned repair */
  avoided: number;
  /** inspection and the day off the road */
  inspection: number;
}

export interface JudgedRule {
  /** of each vehicle, in order */
  askings: JudgedAsking[][];
  /** of each failure */
  warnings: (Warning | null)[];
  score: Omit<RuleScore, 'rule' | 'threshold' | 'matched'>;
}

export type HowJudged = Pick<AskedOf, 'dayEndMs' | 'horizonKm'>;

const notFollowed: LifeCourse = { life: 0, event: null, lastKm: 0, risenShare: null, clearedMs: [] };

/** How many inspections a rule asks for. */
export const countAskings = (
  vehicles: readonly ReplayedVehicle[],
  asksOf: (place: number) => ArrayLike<number>,
  how: HowJudged,
): number =>
  vehicles.reduce(
    (sum, { days, courses }, i) => sum + findAskings(days, asksOf(i), { ...how, courses }).length,
    0,
  );

/** What came of everything that a rule asked for, and which failures it saw coming. */
export function judgeRule(
  vehicles: readonly ReplayedVehicle[],
  failures: readonly CameTrue[],
  asksOf: (place: number) => ArrayLike<number>,
  how: HowJudged,
  costsOf: (platform: string | null) => RuleCosts,
): JudgedRule {
  const askings = vehicles.map(({ days, courses }, i) =>
    findAskings(days, asksOf(i), { ...how, courses }).map((asking) => {
      const course = courses.find(({ life }) => life === asking.life);
      return judgeAsking(asking, course ?? { ...notFollowed, lastKm: asking.lastKm }, how);
    }),
  );
  const warnings = failures.map(({ vehicle, place, course }) =>
    firstWarning(
      (askings[place] ?? []).filter(({ life }) => life === course.life),
      course.event,
      vehicle.days,
      how,
    ),
  );
  const all = askings.flat();
  const count = (verdict: JudgedAsking['verdict']) => all.filter((one) => one.verdict === verdict).length;
  const avoided = failures.reduce(
    (sum, { vehicle }, i) => sum + (warnings[i] === null ? 0 : costsOf(vehicle.platform).avoided),
    0,
  );
  const spent = askings.reduce(
    (sum, own, i) => sum + own.length * costsOf(vehicles[i]?.platform ?? null).inspection,
    0,
  );
  const known = warnings.filter((one) => one !== null);
  return {
    askings,
    warnings,
    score: {
      asked: all.length,
      found: known.length,
      missed: failures.length - known.length,
      right: count('found') + count('late'),
      early: count('early'),
      needless: count('needless'),
      undecided: count('undecided'),
      notice_km: spreadOf(known.map(({ noticeKm }) => noticeKm)),
      notice_days: spreadOf(known.map(({ noticeDays }) => noticeDays)),
      saved: avoided - spent,
      avoided,
      spent,
    },
  };
}

function spreadOf(values: readonly number[]): RuleScore['notice_km'] {
  if (values.length === 0) return null;
  const [p10 = 0, p50 = 0, p90 = 0] = weightedQuantiles(
    values,
    values.map(() => 1),
    [0.1, 0.5, 0.9],
  );
  return { p10, p50, p90 };
}
