import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';
import { seededRandom } from './seeded-random.ts';

export interface QuestionSize {
  candidates: number;
  days: number;
  bays: number;
  /** of a working day, quarters of an hour */
  openQuarters: number;
  /** of inspections, quarters of an hour */
  lengths: readonly number[];
  /** shares of vehicles on hold, of bay days with a booking, of vehicles that are away for some days */
  holdShare: number;
  bookedShare: number;
  awayShare: number;
}

/**
 * A depot with bookings already there and vehicles that get worse at different paces, from a seed. Days are calendar days
 * without weekends; what waiting risks is a Weibull curve of two weeks beyond the last day.
 */
export function makeDepotQuestion(seed: number, size: QuestionSize): DepotQuestion {
  const { uniform } = seededRandom(seed);
  const below = (n: number) => Math.floor(uniform() * n);
  const pick = (): number => size.lengths[below(size.lengths.length)] ?? 8;
  const days = Array.from({ length: size.days }, (_, day) => {
    const opens = 96 * day;
    const closes = opens + size.openQuarters;
    const gaps = Array.from({ length: size.bays }, (_bay, i) => i + 1).flatMap((bay) => {
      const length = pick();
      if (uniform() >= size.bookedShare || length > size.openQuarters)
        return [{ bay, fromQuarter: opens, toQuarter: closes }];
      const at = opens + below(size.openQuarters - length + 1);
      return [
        { bay, fromQuarter: opens, toQuarter: at },
        { bay, fromQuarter: at + length, toQuarter: closes },
      ].filter(({ fromQuarter, toQuarter }) => toQuarter > fromQuarter);
    });
    return { gaps, extra: { fromQuarter: opens, toQuarter: closes } };
  });
  const ahead = days.map((_, day) => day + 2 * Math.floor(day / 5));
  const endsIn = (ahead.at(-1) ?? 0) + 15;
  const candidates = Array.from({ length: size.candidates }, () => {
    const hold = uniform() < size.holdShare;
    const pace = hold ? 0.05 + 0.3 * uniform() : 0.002 + 0.05 * uniform() ** 2;
    const shape = 1 + uniform();
    const chanceIn = (some: number) => 1 - Math.exp(-((pace * some) ** shape));
    const atStake = 4_000 + 4_000 * uniform();
    const inspection = 120 + 100 * uniform();
    const away = uniform() < size.awayShare ? below(size.days) : Infinity;
    const awayDays = 1 + below(5);
    return {
      hold,
      quarters: pick(),
      values: ahead.map((some, day) =>
        day >= away && day < away + awayDays
          ? null
          : (chanceIn(endsIn) - chanceIn(some)) * atStake - inspection,
      ),
    };
  });
  return { days, candidates };
}
