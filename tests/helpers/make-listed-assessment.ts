import type { ListedAssessment } from '#db/queries/list-assessments.ts';
import type { StoredBrief } from '#server/services/assessment/stored-assessment.ts';

/** What is stored of a vehicle whose slip has risen from 19 to 76 rpm. */
export function makeStoredBrief(): StoredBrief {
  return {
    reasons: [{ kind: 'risen', fromRpm: 19, toRpm: 76, overKm: 9_430, sinceKm: 110_000 }],
    missing: [],
    spark: [],
  };
}

/** Its row of the list: to be booked, 1,900 to 5,200 km from its limit. */
export function makeListedAssessment(changes: Partial<ListedAssessment> = {}): ListedAssessment {
  return {
    key: 1,
    rank: 1,
    grade: 'book',
    pattern: 'drift_all_commands',
    referenceSlipRpm: 76.2,
    baselineRpm: 18.7,
    limitRpm: 150,
    onsetKm: 110_000,
    driftRpmPerKm: 0.006,
    driftLow: 0.005,
    driftHigh: 0.007,
    q: 0.001,
    kmP10: 1_900,
    kmP50: 3_000,
    kmP90: 5_200,
    kmPerDay: 300,
    chance: 0.8,
    costAvoided: 4_000,
    brief: makeStoredBrief(),
    unit: '1204',
    depot: null,
    platform: null,
    odometerKm: 119_430,
    lastReadingAt: null,
    booking: null,
    bookingTimeZone: null,
    inspectedOn: null,
    calm: null,
    weekAgo: null,
    ...changes,
  };
}
