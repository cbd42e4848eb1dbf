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
    // 1.96 x 1.25 x 2 / sqrt(3), by hand: the stretches say more of themselves (2) than they scatter (1.48).
    expect(found.slipRpm?.estimate).toBe(14);
    expect(found.slipRpm?.high).toBeCloseTo(14 + 2.829, 3);
    // 14 + 1.645 x 4
    expect(found.healthyRpm?.high).toBeCloseTo(20.58, 10);
  });

  it('says that it did not hold where the whole interval is above', () => {
    expect(judgeRepair(run([60, 62, 58, 61]), 200_000, healthy).state).toBe('not_held');
  });

  it('takes scatter seen for more than the stretches said of themselves', () => {
    const found = judgeRepair(run([2, 38, 2, 38], 1), 200_000, healthy);
    // Median 20, MAD 18, by hand: 1.96 x 1.25 x 1.4826 x 18 / sqrt(4).
    expect(found.slipRpm?.high).toBeCloseTo(20 + 32.69, 2);
    expect(found.state).toBe('unclear');
  });

  it('is not moved by a stretch or two of glitches', () => {
    const found = judgeRepair(run([12, 124, 12, 11, 13, 12, 78], 2), 200_000, healthy);
    expect(found).toMatchObject({ state: 'held', slipRpm: { estimate: 12 } });
  });

  it('leaves open what cannot be set against healthy vehicles', () => {
    expect(judgeRepair(run([14, 14, 14]), 200_000, null)).toMatchObject({
      state: 'unclear',
      healthyRpm: null,
    });
  });
});
