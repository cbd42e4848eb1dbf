import { describe, expect, it } from 'vitest';
import { judgeRepair } from './judge-repair.ts';

const healthy = { baselineRpm: 14, baselineSd: 4 };
const run = (slips: readonly number[], seRpm = 2) =>
  slips.map((slipRpm, i) => ({ km: 200_500 + 500 * i, slipRpm, seRpm }));

describe('judgeRepair', () => {
  it('does not judge before 1,500 km and three stretches', () => {
    expect(judgeRepair([], 200_000, healthy)).toMatchObject({ state: 'too_early', kmSince: null });
    expect(judgeRepair(run([14, 15]), 200_000, healthy)).toMatchObject({ state: 'too_early', kmSince: 1000 });
    const far = run([14, 15]).map((point) => ({ ...point, km: point.km + 3000 }));
    expect(judgeRepair(far, 200_000, healthy).state).toBe('too_early');
  });

  it('says that a repair held where the whole interval is that of healthy vehicles', () => {
    const found = judgeRepair(run([13, 15, 14]), 200_000, healthy);
    expect(found.state).toBe('held');
    // 1.96 x 2 / sqrt(3), by hand: larger than what the scatter gives.
    expect(found.slipRpm?.estimate).toBeCloseTo(14, 10);
    expect(found.slipRpm?.high).toBeCloseTo(14 + 2.2632, 3);
    // 14 + 1.645 x 4
    expect(found.healthyRpm?.high).toBeCloseTo(20.58, 10);
  });

  it('says that it did not hold where the whole interval is above', () => {
    expect(judgeRepair(run([60, 62, 58, 61]), 200_000, healthy).state).toBe('not_held');
  });

  it('takes scatter seen for more than the stretches said of themselves', () => {
    const found = judgeRepair(run([2, 38, 2, 38], 1), 200_000, healthy);
    // standard deviation of the mean, by hand: sqrt(4 x 18^2 / 12)
    expect(found.slipRpm?.high).toBeCloseTo(20 + 1.96 * Math.sqrt(108), 6);
    expect(found.state).toBe('unclear');
  });

  it('leaves open what cannot be set against healthy vehicles', () => {
    expect(judgeRepair(run([14, 14, 14]), 200_000, null)).toMatchObject({
      state: 'unclear',
      healthyRpm: null,
    });
  });
});
