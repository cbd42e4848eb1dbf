import { describe, expect, it } from 'vitest';
import type { ListedAssessment } from '#db/queries/list-assessments.ts';
import type { StoredBrief } from '#server/services/assessment/stored-assessment.ts';
import { makeListedAssessment, makeStoredBrief } from '#tests/helpers/make-listed-assessment.ts';
import { vehicleSentence } from './vehicle-sentence.ts';

const brief = makeStoredBrief();
const row = makeListedAssessment();
const say = (
  changes: Partial<ListedAssessment>,
  own: Partial<StoredBrief> = {},
  units: 'metric' | 'imperial' = 'metric',
) => vehicleSentence({ ...row, ...changes, brief: { ...brief, ...own } }, 85, units, new Map());

describe('a rise', () => {
  it('is said with its way, and the way and the days to the limit', () => {
    expect(say({})).toBe(
      'Slip at 85 % command has risen from 19 to 76 rpm over 9,400 km; it should reach the limit in 1,900 to 5,200 km, about 10 days.',
    );
  });
  it('is said in miles where asked', () => {
    expect(say({}, {}, 'imperial')).toContain(
      'over 5,900 mi; it should reach the limit in 1,200 to 3,200 mi',
    );
  });
  it('says one day as one, and no days of a vehicle that stands', () => {
    expect(say({ kmP50: 200 })).toMatch(/about 1 day\.$/);
    expect(say({ kmPerDay: 0 })).toMatch(/5,200 km\.$/);
    expect(say({ kmPerDay: null })).toMatch(/5,200 km\.$/);
  });
  it('is past the limit, about to reach it, or without a distance', () => {
    expect(say({ referenceSlipRpm: 155 })).toMatch(/and is past the limit of 150 rpm\.$/);
    expect(say({ kmP90: 60 })).toMatch(/it is about to reach the limit of 150 rpm\.$/);
    expect(say({ kmP10: null, kmP50: null, kmP90: null })).toMatch(/over 9,400 km\.$/);
  });
});

it('says the first reason where there is no rise but a grade', () => {
  const reasons: StoredBrief['reasons'] = [
    { kind: 'no_drift', slipRpm: 20, overKm: 9_000 },
    { kind: 'code', code: 'P0741', n: 1, lastMs: 0 },
  ];
  expect(say({}, { reasons })).toBe('Trouble code P0741, once, on 1 Jan 1970.');
});

it('says that a steady vehicle shows no rise, and up to where', () => {
  expect(say({ grade: 'steady' })).toBe('Slip at 85 % command is 76 rpm and shows no rise up to 119,400 km.');
  expect(say({ grade: 'steady', odometerKm: null })).toMatch(/shows no rise\.$/);
});

it('says what is missing', () => {
  const few: StoredBrief = { ...brief, reasons: [], missing: [{ kind: 'few_stretches', have: 2, need: 6 }] };
  expect(say({ grade: 'unknown' }, few)).toBe(
    'Only 2 of the 6 stretches of 500 km that a judgement needs; slip at 85 % command was 76 rpm.',
  );
  expect(say({ referenceSlipRpm: null }, { missing: [{ kind: 'no_usable' }] })).toBe(
    'No reading so far passed the gate for steady lockup.',
  );
  expect(say({ referenceSlipRpm: null }, { missing: [] })).toBe('Too little is known to say anything.');
  expect(vehicleSentence(null, 85, 'metric', new Map())).toBe('No reading has been assessed yet.');
});
