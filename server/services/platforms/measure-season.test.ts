import { describe, expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { type MovedWeek, measureSeason } from './measure-season.ts';

const WEEK_MS = 7 * 86_400_000;
const start = Date.UTC(2024, 0, 1);
const { normal } = seededRandom(8);
const makeWeeks = (n: number, rpmAt: (ms: number) => number): MovedWeek[] =>
  Array.from({ length: n }, (_, i) => {
    const ms = start + (i + 0.5) * WEEK_MS;
    return { ms, rpm: rpmAt(ms) + 0.4 * normal() };
  });
/** Highest in the middle of July. */
const summer = (amplitude: number) => (ms: number) =>
  amplitude * Math.cos((2 * Math.PI * (ms - Date.UTC(2024, 6, 15))) / (365.2425 * 86_400_000));

describe('a season', () => {
  // 120 weeks of 0.4 rpm noise: standard error of an amplitude 0.4 sqrt(2 / 120) = 0.05 rpm; three of them are allowed.
  it('is measured over two years and more, with its height and its month', () => {
    const found = measureSeason(makeWeeks(120, summer(4)), []);
    if (found.state !== 'measured') throw new Error(found.state);
    expect(Math.abs(found.amplitudeRpm - 4)).toBeLessThan(0.2);
    expect(found.highestMonth).toBe(6);
    expect(found.errorRpm).toBeGreaterThan(0.03);
    expect(found.errorRpm).toBeLessThan(0.1);
  });

  it('is found beside a step and a slow drift, which it is not', () => {
    const step = { ms: start + 70 * WEEK_MS, rpm: 25 };
    const weeks = makeWeeks(
      120,
      (ms) => summer(4)(ms) + (ms > step.ms ? step.rpm : 0) + (ms - start) / WEEK_MS / 60,
    );
    const found = measureSeason(weeks, [step]);
    expect(found).toMatchObject({ state: 'measured', highestMonth: 6 });
    expect(Math.abs((found.state === 'measured' ? found.amplitudeRpm : 0) - 4)).toBeLessThan(0.3);
  });

  it('is not seen in noise, nor where it is too small to matter', () => {
    expect(
      measureSeason(
        makeWeeks(120, () => 0),
        [],
      ).state,
    ).toBe('not_seen');
    expect(measureSeason(makeWeeks(120, summer(0.5)), []).state).toBe('not_seen');
  });

  it('is not taken from one summer', () => {
    expect(measureSeason(makeWeeks(61, summer(4)), [])).toEqual({ state: 'too_short' });
    expect(measureSeason([], [])).toEqual({ state: 'too_short' });
  });
});
