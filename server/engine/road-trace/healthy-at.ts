import type { HealthySlip } from '#server/engine/diagnosis/healthy-by-duty.ts';

/** So far beyond the outermost duty its range still stands: half a usual band and a little. */
const BEYOND_PCT = 10;

/**
 * Healthy range of slip at one commanded duty.
 *
 * Straight between the duties at which it is known; beyond the outermost ones their own, up to 10 % of duty away.
 *
 * @param dutyPct commanded duty, %
 * @param healthy range at some duties, by rising duty, rpm
 * @returns range at the duty; null where it is not known
 * Source: linear interpolation, any textbook; how far it is carried is own choice. Edges: none known gives null.
 * Errors: none.
 * @example healthyAt(85, []) // null
 */
export function healthyAt(dutyPct: number, healthy: readonly HealthySlip[]): HealthySlip | null {
  const after = healthy.find((one) => one.dutyPct >= dutyPct);
  const before = healthy.findLast((one) => one.dutyPct <= dutyPct);
  if (before === undefined || after === undefined) {
    const near = before ?? after;
    if (near === undefined || Math.abs(near.dutyPct - dutyPct) > BEYOND_PCT) return null;
    return { ...near, dutyPct };
  }
  const share = before === after ? 0 : (dutyPct - before.dutyPct) / (after.dutyPct - before.dutyPct);
  const between = (a: number, b: number) => a + share * (b - a);
  return {
    dutyPct,
    lowRpm: between(before.lowRpm, after.lowRpm),
    usualRpm: between(before.usualRpm, after.usualRpm),
    highRpm: between(before.highRpm, after.highRpm),
  };
}
