import { expect, it } from 'vitest';
import { makeListedAssessment, makeStoredBrief } from '#tests/helpers/make-listed-assessment.ts';
import { toRankingRow } from './to-ranking-row.ts';

const now = new Date('2026-03-04T05:10:00Z');

it('gives kilometres, days and rates in the units of their names', () => {
  expect(toRankingRow(makeListedAssessment(), 'metric', new Map(), now)).toMatchObject({
    vehicle: '1204',
    odometer_km: 119_430,
    km_to_limit: { p10: 1_900, p50: 3_000, p90: 5_200 },
    days_to_limit: { p10: 6.3, p50: 10, p90: 17.3 },
    drift_rpm_per_1000km: { estimate: 6, low: 5, high: 7 },
    reference_slip_rpm: 76.2,
  });
});

it('has no days of a vehicle that stands, and null for what is not known', () => {
  expect(
    toRankingRow(makeListedAssessment({ kmPerDay: 0 }), 'metric', new Map(), now).days_to_limit.p50,
  ).toBeNull();
  const blank = makeListedAssessment({
    kmP10: null,
    kmP50: null,
    kmP90: null,
    driftRpmPerKm: null,
    chance: null,
    costAvoided: null,
    referenceSlipRpm: null,
    lastReadingAt: null,
  });
  expect(toRankingRow(blank, 'metric', new Map(), now)).toMatchObject({
    km_to_limit: { p10: null, p50: null, p90: null },
    drift_rpm_per_1000km: null,
    chance_within_horizon: null,
    expected_cost_avoided: null,
    reference_slip_rpm: null,
    last_reading_at: null,
  });
});

it('puts words to reasons and to what is missing, in the units of the reader', () => {
  const brief = { ...makeStoredBrief(), missing: [{ kind: 'no_load' as const }] };
  const row = toRankingRow(makeListedAssessment({ brief }), 'imperial', new Map(), now);
  expect(row.reasons).toEqual(['Slip has risen from 19 to 76 rpm over 5,900 mi']);
  expect(row.missing).toHaveLength(1);
});

it('shows an unheard-of pattern as none', () => {
  expect(
    toRankingRow(makeListedAssessment({ pattern: 'unheard_of' }), 'metric', new Map(), now).pattern,
  ).toBe('none');
});
