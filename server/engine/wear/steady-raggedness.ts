import type { Raggedness } from './measure-raggedness.ts';

/** Rise, in rpm, that the usual raggedness counts for beside a clutch's own. Own choice. */
const STEADY_RPM = 40;
const MOST_RPM = 60;

/**
 * Raggedness of one clutch, steadied by what is usual: (40 rpm * usual + squares) / (40 rpm + rise), from 0 to 60 rpm.
 *
 * @param own      of the clutch; null where it has none
 * @param usualRpm of the platform, rpm
 * @returns size of its jumps, rpm
 * Source: shrinkage to a group, Lindley and Smith 1972. Edges: as said. Errors: none.
 * @example steadyRaggedness(null, 6) // 6
 */
export function steadyRaggedness(own: Raggedness | null, usualRpm: number): number {
  if (own === null || !(own.riseRpm > 0)) return usualRpm;
  const size = (STEADY_RPM * usualRpm + own.squares) / (STEADY_RPM + own.riseRpm);
  return Math.min(MOST_RPM, Math.max(0, size));
}
