import type { CalibrationBin } from '#server/contract/replay.ts';

/** Bounds further apart say little: that nothing speaks against a chance is then no proof of it. Own choice. */
const wideBounds = 0.2;

/** Less than this between stated and seen is of no consequence, however narrow the bounds. Own choice. */
const slight = 0.01;

export type Trust = 'kept' | 'loose' | 'high' | 'low' | 'untold';

/** Whether what came bears out what was stated: too high or too low only where the bounds exclude the mean. */
export function judgeBin({ stated, seen, low, high }: CalibrationBin): Trust {
  if (seen === null || low === null || high === null) return 'untold';
  if (stated > high && stated - seen > slight) return 'high';
  if (stated < low && seen - stated > slight) return 'low';
  return high - low > wideBounds ? 'loose' : 'kept';
}

/** Stated too high or too low. */
export const isOff = (bin: CalibrationBin): boolean => ['high', 'low'].includes(judgeBin(bin));
