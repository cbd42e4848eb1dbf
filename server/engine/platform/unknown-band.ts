import { defaultWearPrior } from '#server/engine/wear/wear-model.ts';
import type { BandContext } from './platform-context.ts';

/**
 * Context of a band of which nothing was learned: usual slip as assumed, no effects, no movement.
 *
 * @param band number of the band
 * @returns context
 * Source: own assumptions, those of the default prior. Edges, errors: none.
 * @example unknownBand(2).movement // []
 */
export function unknownBand(band: number): BandContext {
  const { baselineRpm, baselineSd } = defaultWearPrior;
  const effects: BandContext['effects'] = { healthy: [0, 0, 0], worn: [0, 0, 0] };
  return {
    band,
    usualRpm: baselineRpm,
    effects,
    usual: { loadPct: null, fluidC: null },
    movement: [],
    baselineRpm,
    baselineSd,
  };
}
