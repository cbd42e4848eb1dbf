import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { alignSignals } from './align-signals.ts';
import { summariseStretch } from './summarise-stretch.ts';
import { weighReading } from './weigh-reading.ts';

const loads = (...values: (number | null)[]) => values.map((loadPct) => ({ loadPct, fluidC: 85 }));
const loadsOf = (readings: readonly { loadPct: number | null }[]) => readings.map(({ loadPct }) => loadPct);

it('runs as its note says', () => {
  const aligned = alignSignals([
    { loadPct: 40, fluidC: 80 },
    { loadPct: 60, fluidC: null },
  ]);
  expect(aligned).toEqual([{ loadPct: 40, fluidC: 80 }]);
});

it('leaves out readings that lack what at least half of them have', () => {
  expect(loadsOf(alignSignals(loads(40, null, 60, null)))).toEqual([40, 60]);
  expect(loadsOf(alignSignals(loads(40, 45, 65, null)))).toEqual([40, 45, 65]);
});

it('takes a signal from all where fewer have it', () => {
  expect(loadsOf(alignSignals(loads(40, null, null)))).toEqual([null, null, null]);
});

it('leaves readings as they are where all or none have a signal', () => {
  for (const readings of [loads(40, 60), loads(null, null), []])
    expect(alignSignals(readings)).toBe(readings);
});

it('looks at the temperature of what is left, and leaves everything else as it is', () => {
  const readings = [
    { slipRpm: 20, loadPct: 40, fluidC: null },
    { slipRpm: 21, loadPct: null, fluidC: 80 },
    { slipRpm: 22, loadPct: 45, fluidC: null },
    { slipRpm: 23, loadPct: 50, fluidC: 90 },
  ];
  expect(alignSignals(readings)).toEqual([
    { slipRpm: 20, loadPct: 40, fluidC: null },
    { slipRpm: 22, loadPct: 45, fluidC: null },
    { slipRpm: 23, loadPct: 50, fluidC: null },
  ]);
});

// A vehicle that runs lighter than the reference point: load 35 % give or take 12, slip 20 rpm + 0.8 rpm for each % above
// 50, noise 2 rpm. A third of 12 readings lose the load, so 8 count, at an effective count of about 4: 2 / sqrt(4) = 1 rpm
// for a stretch and 0.05 rpm for the mean of 400; bounds of 4 of those, and of 1.3 times 1 rpm for the spread.
it('keeps slip at the reference point where a gateway drops the load now and then', () => {
  const reference = { dutyPct: 85, loadPct: 50, fluidC: 85 };
  const { normal } = seededRandom(11);
  const errors = Array.from({ length: 400 }, () => {
    const readings = Array.from({ length: 12 }, (_, i) => {
      const load = 35 + 12 * normal();
      const slipRpm = 20 + 0.8 * (load - 50) + 2 * normal();
      return { odometerKm: i, slipRpm, dutyPct: 85, fluidC: 85, loadPct: i % 3 === 0 ? null : load };
    });
    const { slipRpm, loadPct } = summariseStretch(
      alignSignals(readings).map((one) => ({ ...one, weight: weighReading(one, reference, true) })),
    );
    return slipRpm + 0.8 * (50 - (loadPct ?? Number.NaN)) - 20;
  });
  const mean = errors.reduce((a, b) => a + b, 0) / errors.length;
  const sd = Math.sqrt(errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / errors.length);
  expect(Math.abs(mean)).toBeLessThan(4 * 0.05);
  expect(sd).toBeLessThan(1.3);
});
