const HALF_DAY_MS = 43_200_000;
const MOST_VEHICLES = 10_000;

export interface DayFollower {
  /** days after the first at which this vehicle's clock is, or why that is not known */
  follow(vehicle: string, clockMs: number): number | string;
  severalDays(): boolean;
}

/** Follows the clocks of vehicles through rows without a date: one that falls back by more than half a day begins the next. */
export function createDayFollower(): DayFollower {
  const clocks = new Map<string, { days: number; lastMs: number }>();
  let hasFallenBack = false;
  return {
    follow(vehicle, clockMs) {
      const clock = clocks.get(vehicle);
      if (clock === undefined) {
        if (clocks.size >= MOST_VEHICLES)
          return `has no date, which is followed for ${MOST_VEHICLES} vehicles of a file at most`;
        clocks.set(vehicle, { days: 0, lastMs: clockMs });
        return 0;
      }
      if (clock.lastMs - clockMs > HALF_DAY_MS) {
        clock.days += 1;
        hasFallenBack = true;
      }
      clock.lastMs = clockMs;
      return clock.days;
    },
    severalDays: () => hasFallenBack,
  };
}

/** For a row by itself, of a file in which a clock fell back: only a date in the row tells its day. */
export const noDayFollower: DayFollower = {
  follow: () => 'is of a file over several days: write the day before the time, such as 2026-03-04 05:06:07',
  severalDays: () => true,
};
