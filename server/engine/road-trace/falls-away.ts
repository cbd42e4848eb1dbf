import type { SteadyStretch } from './trace-model.ts';

/** Slip that would not be gone by then does not fall. */
const GONE_WITHIN_S = 60;

/**
 * Whether slip falls away while the command is held, as that of a clutch that is still being applied.
 *
 * Falls where even the upper 95 % limit of the slope takes the median to 0 within 60 s: high <= -slip / 60.
 *
 * A long stretch makes the smallest slope certain; 540 rpm that lose 0.2 rpm a second do not fall in any sense that
 * matters to the clutch.
 *
 * @param stretch median slip, rpm, and its slope, rpm per s
 * @returns true where it falls away
 * Source: own rule; common practice, no source. Edges: slip of 0 or less does not fall away. Errors: none.
 * @example fallsAway({ slipRpm: 300, slope: { estimate: -40, low: -60, high: -20 } }) // true
 */
export function fallsAway({ slipRpm, slope }: Pick<SteadyStretch, 'slipRpm' | 'slope'>): boolean {
  return slipRpm > 0 && slope.high <= -slipRpm / GONE_WITHIN_S;
}
