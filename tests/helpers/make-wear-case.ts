import type { WearCase } from '#server/engine/wear/wear-model.ts';

/** A case of linear wear from 100,000 km, healthy at 20 rpm, at a limit of 150 rpm after 10,000 km; now at 105,000. */
export function makeWearCase(changes: Partial<WearCase> = {}): WearCase {
  return {
    kind: 'drift',
    power: 1,
    onsetKm: 100_000,
    spanKm: 10_000,
    baselineRpm: 20,
    baselineSd: 1,
    levelRpm: 85,
    levelSd: 1,
    weight: 1,
    ...changes,
  };
}

/** A case of no change at 20 rpm. */
export function makeFlatCase(changes: Partial<WearCase> = {}): WearCase {
  const never = Number.POSITIVE_INFINITY;
  return makeWearCase({ kind: 'flat', power: 0, onsetKm: never, spanKm: never, levelRpm: 20, ...changes });
}

/** A case of a jump from 20 to 70 rpm at 100,000 km that stays. */
export function makeStepCase(changes: Partial<WearCase> = {}): WearCase {
  return makeWearCase({
    kind: 'step',
    power: 0,
    spanKm: Number.POSITIVE_INFINITY,
    levelRpm: 70,
    ...changes,
  });
}
