import {
  type EffectEvidence,
  fitConditionEffects as fitWith,
} from '#server/engine/conditions/fit-condition-effects.ts';

export type * from '#server/engine/conditions/fit-condition-effects.ts';

/** Each vehicle's effects of the conditions from its own stretches alone. */
export const fitConditionEffects = (stretches: readonly EffectEvidence[], rises: ArrayLike<number>) =>
  fitWith(stretches, rises, null);
