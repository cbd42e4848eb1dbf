import { type Grade, grades } from '#server/contract/words.ts';
import type { GradeLimits } from '#server/engine/assessment/grade-vehicle.ts';
import { type RankedInput, rankVehicles } from '#server/engine/ranking/rank-vehicles.ts';
import type { DayTable } from './day-columns.ts';
import type { ReplayedVehicle } from './replayed-vehicle.ts';

/** Stands in the grades of a vehicle for a day on which it is not in the list. */
export const NOT_LISTED = 255;
const QUIET_DAYS = 14;

/** Ranks and grades the list of every day; for each vehicle the number of its grade on each day. */
export function gradeDays(
  vehicles: readonly Pick<ReplayedVehicle, 'vehicle' | 'platform' | 'days'>[],
  days: number,
  costsOf: (platform: string | null) => RankedInput['costs'],
  limits: GradeLimits,
): Uint8Array[] {
  const found = vehicles.map(() => new Uint8Array(days).fill(NOT_LISTED));
  const costs = vehicles.map(({ platform }) => costsOf(platform));
  for (let day = 0; day < days; day++) {
    const list = vehicles.flatMap((one, i): RankedInput[] => {
      const own = costs[i];
      if (own === undefined || Number.isNaN(at(one.days.km, day))) return [];
      return [
        {
          vehicle: i,
          costs: own,
          isCalm: at(one.days.isCalm, day) === 1,
          assessment: factsOn(one.days, day),
        },
      ];
    });
    for (const { vehicle, grade } of rankVehicles(list, limits)) {
      const own = found[vehicle];
      if (own !== undefined) own[day] = grades.indexOf(grade);
    }
  }
  return found;
}

export const gradeOf = (number: number | undefined): Grade | null => grades[number ?? NOT_LISTED] ?? null;

/** Facts of the list as the day's figures tell them: sums stand for their parts where only the sum counts. */
function factsOn(days: DayTable, day: number): RankedInput['assessment'] {
  const quietDays = at(days.quietDays, day);
  const soon = at(days.soonChance, day);
  return {
    p: orNull(at(days.p, day)),
    drifting: at(days.moving, day),
    stepping: 0,
    chancePastLimit: soon,
    chanceSoon: soon,
    chanceWithinHorizon: at(days.chance, day),
    suddenChance: at(days.suddenChance, day),
    levelRpm: orNull(at(days.levelRpm, day)),
    baselineRpm: orNull(at(days.baselineRpm, day)),
    codes: at(days.codes, day),
    missing: [
      ...(at(days.isThin, day) === 1 ? [{ kind: 'no_usable' as const }] : []),
      ...(quietDays >= QUIET_DAYS ? [{ kind: 'quiet' as const, days: quietDays }] : []),
    ],
  };
}

const at = (values: Float64Array, day: number): number => values[day] ?? Number.NaN;
const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);
