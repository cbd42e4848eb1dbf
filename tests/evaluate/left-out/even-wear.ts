import { defaultWearPrior as prior } from '#server/engine/wear/wear-model.ts';

export type * from '#server/engine/wear/wear-model.ts';

/** Wear is even: slip climbs by the same with every kilometre. */
export const defaultWearPrior: typeof prior = { ...prior, growths: [{ law: 'power', value: 1, share: 1 }] };
