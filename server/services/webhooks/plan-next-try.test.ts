import { describe, expect, it } from 'vitest';
import { type FailedTry, planNextTry } from './plan-next-try.ts';

const now = new Date('2026-11-26T12:00:00Z');
const minutesUntil = (more: Partial<FailedTry>) => {
  const next = planNextTry({ at: now, now, tries: 1, status: 500, retryAfter: null, chance: 0.5, ...more });
  return next === null ? null : (next.getTime() - now.getTime()) / 60_000;
};

describe('the next try', () => {
  it('comes after a minute, then after twice as long, to six hours', () => {
    expect([1, 2, 3, 9, 10, 40].map((tries) => minutesUntil({ tries }))).toEqual([1, 2, 4, 256, 360, 360]);
  });

  it('is spread by a fifth each way', () => {
    expect(minutesUntil({ chance: 0 })).toBeCloseTo(0.8);
    expect(minutesUntil({ chance: 1 })).toBeCloseTo(1.2);
  });

  it('waits as long as it is asked to, up to a day', () => {
    expect(minutesUntil({ retryAfter: '600' })).toBe(10);
    expect(minutesUntil({ retryAfter: 'Thu, 26 Nov 2026 13:00:00 GMT' })).toBe(60);
    expect(minutesUntil({ retryAfter: '5' })).toBe(1);
    expect(minutesUntil({ retryAfter: '9999999' })).toBe(24 * 60);
    expect(minutesUntil({ retryAfter: 'soon' })).toBe(1);
  });

  it('is none where the receiver is gone, or three days after the event', () => {
    expect(minutesUntil({ status: 410 })).toBeNull();
    const at = new Date(now.getTime() - 3 * 86_400_000 + 30_000);
    expect(minutesUntil({ at })).toBeNull();
    expect(minutesUntil({ at: new Date(at.getTime() + 60_000) })).toBe(1);
  });
});
