import { defaultWearPrior, type SeenClutch, type WearPrior } from '#server/engine/wear/wear-model.ts';

export type * from '#server/engine/wear/learn-wear.ts';

/** Nothing is learned from other clutches: not how they wear, nor what healthy slip is usual. */
export const learnWear = (
  _clutches: readonly SeenClutch[],
  _limitRpm: number,
  _prior: WearPrior,
): WearPrior => ({
  ...defaultWearPrior,
  baselineSd: 40,
});
