import type { Outlook, OutlookRules } from '#server/engine/wear/outlook.ts';
import type { WearCase } from '#server/engine/wear/wear-model.ts';

/** A case of linear wear from 100,000 km, healthy at 20 rpm, at a limit of 150 rpm after 10,000 km; now at 105,000. */
export function makeWearCase(changes: Partial<WearCase> = {}): WearCase {
  return {
    kind: 'drift',
    growth: { law: 'power', value: 1 },
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
  return makeWearCase({ kind: 'flat', onsetKm: never, spanKm: never, levelRpm: 20, ...changes });
}

/** A case of a jump from 20 to 70 rpm at 100,000 km that stays. */
export function makeStepCase(changes: Partial<WearCase> = {}): WearCase {
  return makeWearCase({ kind: 'step', spanKm: Number.POSITIVE_INFINITY, levelRpm: 70, ...changes });
}

/** What {@link makeWearCase} says of the way ahead at 105,000 km: half of the 10,000 km gone. */
export function makeOutlook(changes: Partial<Outlook> = {}): Outlook {
  return {
    weight: 1,
    baselineRpm: 20,
    levelRpm: 85,
    levelSd: 1,
    growth: { law: 'power', value: 1 },
    goneKm: 5_000,
    spanKm: 10_000,
    waySd: 0.6,
    ...changes,
  };
}

/** No change at 20 rpm. */
export function makeFlatOutlook(changes: Partial<Outlook> = {}): Outlook {
  return makeOutlook({ levelRpm: 20, goneKm: 0, spanKm: Number.POSITIVE_INFINITY, ...changes });
}

/** Rules under which a rise is smooth and nothing misleads as a whole; usual span 20,000 km. */
export function makeOutlookRules(changes: Partial<OutlookRules> = {}): OutlookRules {
  return {
    limitRpm: 150,
    waySd: 0.6,
    logSpanMean: Math.log(20_000),
    raggedRpm: 0,
    levelShare: 0,
    ...changes,
  };
}
