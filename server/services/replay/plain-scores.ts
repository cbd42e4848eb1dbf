import { type GateRules, gateReading } from '#server/engine/gate/gate-reading.ts';
import type { StretchReading } from '#server/engine/stretches/build-stretches.ts';
import { DAY_MS } from './replay-plan.ts';

/** Days whose mean slip is held against the limit; days of which the mean is set against that of as many before. */
const LEVEL_DAYS = 14;
const RISE_DAYS = 7;
const LEAST_DUTY_PCT = 70;
/** Fewer readings on either side tell nothing. */
const LEAST_READINGS = 4;

/**
 * What the plain rules look at of one vehicle, from usable readings at 70 % command or more as they become known. Whoever
 * follows such a rule begins anew with a new converter: readings of another life count for nothing.
 */
export function followPlainScores(gate: GateRules, lifeOf: (reading: StretchReading) => number) {
  const lives = new Map<number, Map<number, { n: number; sum: number }>>();
  let previous: StretchReading | null = null;

  function daysOf(life: number) {
    const days = lives.get(life) ?? new Map<number, { n: number; sum: number }>();
    lives.set(life, days);
    return days;
  }

  function meanOf(life: number, lastDay: number, length: number): number {
    let [n, sum] = [0, 0];
    for (let day = lastDay - length + 1; day <= lastDay; day++) {
      const cell = daysOf(life).get(day);
      n += cell?.n ?? 0;
      sum += cell?.sum ?? 0;
    }
    return n < LEAST_READINGS ? Number.NaN : sum / n;
  }

  return {
    take(readings: readonly StretchReading[]): void {
      for (const reading of readings) {
        const before = previous !== null && previous.atMs < reading.atMs ? previous : null;
        previous = reading;
        if (reading.dutyPct < LEAST_DUTY_PCT || gateReading(reading, before, gate) !== null) continue;
        const day = Math.floor(reading.atMs / DAY_MS);
        const days = daysOf(lifeOf(reading));
        const cell = days.get(day) ?? { n: 0, sum: 0 };
        days.set(day, { n: cell.n + 1, sum: cell.sum + reading.slipRpm });
      }
    },
    /** At the end of a day: % of the limit, and rpm a week; NaN where readings are too few. */
    look(dayEndMs: number, limitRpm: number, life: number): { levelPct: number; riseRpm: number } {
      const today = Math.floor((dayEndMs - 1) / DAY_MS);
      return {
        levelPct: (100 * meanOf(life, today, LEVEL_DAYS)) / limitRpm,
        riseRpm: meanOf(life, today, RISE_DAYS) - meanOf(life, today - RISE_DAYS, RISE_DAYS),
      };
    },
  };
}
