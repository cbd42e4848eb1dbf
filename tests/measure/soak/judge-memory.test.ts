import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { judgeMemory } from './judge-memory.ts';

/** Half an hour at one look in 5 s: 300 MiB, a sawtooth of garbage, scatter, and what `grown` adds by the second. */
function look(grown: (atS: number) => number, lasts = 1800, scatterMiB = 12) {
  const { uniform } = seededRandom(11);
  return Array.from({ length: lasts / 5 }, (_, i) => {
    const atS = i * 5;
    return { atS, valueMiB: 300 + (atS % 40) + scatterMiB * (uniform() - 0.5) + grown(atS) };
  });
}

it.each(['median', 'least'] as const)('calls a sawtooth with scatter flat, by the %s', (pick) => {
  const { verdict, slopeMiBPerH } = judgeMemory(
    look(() => 0),
    pick,
  );
  expect(verdict).toBe('flat');
  expect(slopeMiBPerH.low).toBeLessThan(0);
  expect(slopeMiBPerH.high).toBeGreaterThan(0);
});

it.each(['median', 'least'] as const)(
  'finds a leak of 60 MiB an hour below the sawtooth, by the %s',
  (pick) => {
    const { verdict, slopeMiBPerH } = judgeMemory(
      look((atS) => atS / 60),
      pick,
    );
    expect(verdict).toBe('grows');
    expect(slopeMiBPerH.low).toBeLessThan(60);
    expect(slopeMiBPerH.high).toBeGreaterThan(60);
  },
);

it('leaves out what grows in the first third only', () => {
  expect(
    judgeMemory(
      look((atS) => Math.min(atS / 4, 150)),
      'median',
    ).verdict,
  ).toBe('flat');
});

it('does not decide on a minute, nor on three looks', () => {
  expect(
    judgeMemory(
      look(() => 0, 60),
      'median',
    ).verdict,
  ).toBe('undecided');
  expect(
    judgeMemory(
      look(() => 0, 15),
      'median',
    ).verdict,
  ).toBe('undecided');
});

it('does not take a slow wave for a leak: neighbours that go together widen the interval', () => {
  const wave = look((atS) => 30 * Math.sin(atS / 300));
  const { slopeMiBPerH } = judgeMemory(wave, 'median');
  expect(slopeMiBPerH.high - slopeMiBPerH.low).toBeGreaterThan(100);
  expect(judgeMemory(wave, 'median').verdict).not.toBe('grows');
});
