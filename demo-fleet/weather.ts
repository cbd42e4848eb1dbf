import { dayOfYear } from './calendar.ts';
import type { DepotBuild } from './depots.ts';
import { Random } from './random.ts';

/** Day means of a depot: a yearly wave with its top on 24 July, and weather that lasts for days. */
export interface Weather {
  meanC(day: number): number;
  /** without the weather of the day, used for the time to come */
  normalC(day: number): number;
}

const HOTTEST_DAY_OF_YEAR = 205;
const PERSISTENCE = 0.75;

export function createWeather(depot: DepotBuild, firstDay: number, lastDay: number, seed: string): Weather {
  const random = new Random(`${seed}|weather|${depot.id}`);
  const { meanC, seasonC, dayNoiseC } = depot.climate;
  const deviations = new Float64Array(Math.max(0, lastDay - firstDay + 1));
  let deviation = 0;
  for (let i = 0; i < deviations.length; i++) {
    deviation =
      PERSISTENCE * deviation + random.normal(0, dayNoiseC * Math.sqrt(1 - PERSISTENCE * PERSISTENCE));
    deviations[i] = deviation;
  }
  const normalC = (day: number) =>
    meanC + seasonC * Math.cos((2 * Math.PI * (dayOfYear(day) - HOTTEST_DAY_OF_YEAR)) / 365.25);
  const means = deviations.map((value, i) => normalC(firstDay + i) + value);
  return { normalC, meanC: (day) => means[day - firstDay] ?? normalC(day) };
}

/** Warmest at 15 h, coldest at 3 h. */
export const ambientC = (dayMeanC: number, hour: number): number =>
  dayMeanC + 4 * Math.cos((2 * Math.PI * (hour - 15)) / 24);
