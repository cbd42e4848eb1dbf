import type { LifeWeek } from '#db/queries/make-life-weeks.ts';
import type { VehicleWeeks } from '#db/queries/read-life-weeks.ts';
import type { Exposure } from '#server/contract/lives.ts';
import { compareWithinWeeks, type WeekMean } from '#server/engine/life/compare-within-weeks.ts';
import { heatPerWay } from '#server/services/vehicles/heat-per-way.ts';

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
 * How converters were used, each compared with those of its platform in the same weeks, so that seasons tell nothing: named by
 * {@link nameLife}.
 */
export function compareUse(vehicles: readonly VehicleWeeks[]): Map<string, Used> {
  const used = new Map<string, Used>();
  for (const platform of new Set(vehicles.map((one) => one.platform))) {
    const own = vehicles.filter((one) => one.platform === platform);
    const numbers = new Map<string, number>();
    const weeks = own.flatMap(({ vehicle, weeks: all }) =>
      (all ?? []).map((week) => {
        const name = nameLife({ vehicle, life: week[0] });
        const subject = numbers.get(name) ?? numbers.size;
        numbers.set(name, subject);
        return { subject, vehicle, week };
      }),
    );
    for (const { name, of, least, most } of measures) {
      const cells = weeks.flatMap(({ subject, vehicle, week }): WeekMean[] => {
        const { mean, weight } = of(week);
        return weight > 0 ? [{ subject, group: vehicle, week: week[1], mean, weight }] : [];
      });
      const found = compareWithinWeeks(cells, numbers.size);
      for (const [life, subject] of numbers) {
        const value = found[subject] ?? null;
        const before = used.get(life) ?? nothingKnown;
        used.set(life, {
          ...before,
          [name]: value === null ? null : Math.min(most, Math.max(least, value)),
        });
      }
    }
  }
  return used;
}
