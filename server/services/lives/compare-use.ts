import type { LifeWeek } from '#db/queries/make-life-weeks.ts';
import type { VehicleWeeks } from '#db/queries/read-life-weeks.ts';
import type { Exposure } from '#server/contract/lives.ts';
import { compareWithinWeeks } from '#server/engine/life/compare-within-weeks.ts';
import { heatPerWay } from '#server/services/vehicles/heat-per-way.ts';
import type { Weeks } from './weeks-within.ts';

/** How each converter was used, in the units of the names; null where nothing tells. */
export type Used = Record<Exposure, number | null>;

export const nothingKnown: Used = {
  fluid_c: null,
  hot_pct: null,
  load_pct: null,
  partial_lockup_pct: null,
  heat_mj_per_1000km: null,
};

interface Measure {
  name: Exposure;
  /** mean of a week, and what it weighs; 0 where the week does not tell */
  of: (week: LifeWeek) => { mean: number; weight: number };
  /** where an exposure ends by its nature: taken off a season, a share can come out below nothing */
  least: number;
  most: number;
}

const share = (part: number, whole: number) => ({ mean: (100 * part) / whole, weight: whole });

const measures: readonly Measure[] = [
  {
    name: 'fluid_c',
    of: ([, , , , n, sum]) => ({ mean: sum / n, weight: n }),
    least: Number.NEGATIVE_INFINITY,
    most: Number.POSITIVE_INFINITY,
  },
  { name: 'hot_pct', of: ([, , , , , , , , n, hot]) => share(hot, n), least: 0, most: 100 },
  {
    name: 'load_pct',
    of: ([, , , , , , n, sum]) => ({ mean: sum / n, weight: n }),
    least: Number.NEGATIVE_INFINITY,
    most: Number.POSITIVE_INFINITY,
  },
  { name: 'partial_lockup_pct', of: ([, , n, partial]) => share(partial, n), least: 0, most: 100 },
  {
    name: 'heat_mj_per_1000km',
    of: ([, , , , , , , , , , kw, speed]) => ({ mean: heatPerWay(kw, speed) ?? 0, weight: speed }),
    least: 0,
    most: Number.POSITIVE_INFINITY,
  },
];

export const nameLife = ({ vehicle, life }: { vehicle: number; life: number }): string =>
  `${vehicle} ${life}`;

/**
 * How converters were used in some weeks, each compared with those of its platform in the same weeks, so that seasons tell
 * nothing: named by {@link nameLife}.
 */
export function compareUse(
  vehicles: readonly VehicleWeeks[],
  { first, last }: Weeks = { first: Number.NEGATIVE_INFINITY, last: Number.POSITIVE_INFINITY },
): Map<string, Used> {
  const used = new Map<string, Used>();
  for (const platform of new Set(vehicles.map((one) => one.platform))) {
    const names: string[] = [];
    const groups: number[] = [];
    const subjects: number[] = [];
    const weeks: LifeWeek[] = [];
    for (const { vehicle, platform: own, weeks: all } of vehicles) {
      if (own !== platform) continue;
      let life = 0;
      for (const week of all ?? []) {
        if (week[1] < first || week[1] > last) continue;
        if (week[0] !== life) {
          life = week[0];
          names.push(nameLife({ vehicle, life }));
          groups.push(vehicle);
        }
        subjects.push(names.length - 1);
        weeks.push(week);
      }
    }
    const found = compareAll(subjects, weeks, groups);
    for (const [i, name] of names.entries())
      used.set(name, Object.fromEntries(found.map(([exposure, values]) => [exposure, values[i]])) as Used);
  }
  return used;
}

/** Weeks of a vehicle come in the order of its lives. */
function compareAll(subjects: readonly number[], weeks: readonly LifeWeek[], groups: readonly number[]) {
  const subject = Int32Array.from(subjects);
  const firstWeek = weeks.reduce((least, [, week]) => Math.min(least, week), Number.POSITIVE_INFINITY);
  const week = Int32Array.from(weeks, ([, one]) => one - firstWeek);
  return measures.map(({ name, of, least, most }): [Exposure, (number | null)[]] => {
    const mean = new Float64Array(weeks.length);
    const weight = new Float64Array(weeks.length);
    for (const [i, one] of weeks.entries()) {
      const told = of(one);
      weight[i] = told.weight;
      mean[i] = told.weight > 0 ? told.mean : 0;
    }
    const values = compareWithinWeeks({ subject, week, mean, weight }, groups);
    return [name, values.map((value) => (value === null ? null : Math.min(most, Math.max(least, value))))];
  });
}
