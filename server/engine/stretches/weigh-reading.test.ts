import { expect, it } from 'vitest';
import { weighReading } from './weigh-reading.ts';

const reference = { dutyPct: 85, loadPct: 50, fluidC: 85 };
const weigh = (
  changes: Partial<{ dutyPct: number; loadPct: number | null; fluidC: number | null }>,
  withDuty = true,
) => weighReading({ ...reference, ...changes }, reference, withDuty);

it('runs as its note says', () => {
  expect(
    weighReading({ dutyPct: 85, loadPct: 50, fluidC: 85 }, { dutyPct: 85, loadPct: 50, fluidC: 85 }, true),
  ).toBe(1);
});

// exp(-1/2) = 0.60653.
it('falls to 0.61 one bandwidth away, on either side and in each condition', () => {
  const height = 0.002 + 0.998 * 0.60653;
  for (const changes of [{ loadPct: 65 }, { loadPct: 35 }, { fluidC: 97 }, { dutyPct: 79 }])
    expect(weigh(changes)).toBeCloseTo(height, 5);
});

it('does not look at duty within a command band, nor at a load or temperature that is not known', () => {
  expect(weigh({ dutyPct: 41 }, false)).toBe(1);
  expect(weigh({ loadPct: null })).toBe(1);
  expect(weigh({ fluidC: null })).toBe(1);
  expect(weigh({ fluidC: null, loadPct: 35 })).toBe(weigh({ loadPct: 35 }));
});

it('never falls below its floor', () => {
  expect(weigh({ loadPct: 100, fluidC: 55, dutyPct: 40 })).toBeGreaterThanOrEqual(0.002);
});
