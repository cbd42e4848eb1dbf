import { describe, expect, it } from 'vitest';
import { sumSetAside } from './sum-set-aside.ts';

const entry = (month: string, reason: 'cold' | 'shifting', n: number) => ({
  odometer_km: 1,
  month,
  reason,
  n,
});

describe('sumSetAside', () => {
  it('counts by reason and month, most first, with a place for months without any', () => {
    const sums = sumSetAside([
      entry('2025-11', 'cold', 2),
      entry('2026-02', 'cold', 1),
      entry('2026-02', 'shifting', 9),
      entry('2025-11', 'cold', 3),
    ]);
    expect(sums.months).toEqual(['2025-11', '2025-12', '2026-01', '2026-02']);
    expect(sums.reasons).toEqual([
      { reason: 'shifting', n: 9, byMonth: [0, 0, 0, 9] },
      { reason: 'cold', n: 6, byMonth: [5, 0, 0, 1] },
    ]);
  });

  it('is empty for nothing', () => {
    expect(sumSetAside([])).toEqual({ months: [], reasons: [] });
  });
});
