import { expect, it } from 'vitest';
import { noteLives } from './note-lives.ts';
import { observeLives } from './observe-lives.ts';
import type { RecordedLife, VehicleRecord } from './vehicle-record.ts';

const life = (over: Partial<RecordedLife>): RecordedLife => ({
  number: 1,
  fittedKm: 0,
  fittedAtMs: null,
  removedKm: null,
  removedAtMs: null,
  ended: null,
  mode: null,
  source: 'original',
  supplier: null,
  runKm: null,
  ...over,
});
const record = (lives: RecordedLife[]): VehicleRecord => ({
  vehicle: 1,
  unit: 'B-1',
  platform: null,
  depot: null,
  firstReadingMs: 0,
  firstKm: 10_000,
  nowKm: 90_000,
  lives,
});
const notesOf = (lives: RecordedLife[], count: 'failed' | 'failed_and_preventive' = 'failed') => {
  const records = [record(lives)];
  const how = { records: 'first_reading', count, unknownRun: 'from_fitting' } as const;
  return noteLives(observeLives(records, how).lives, records);
};

it('says which lives were taken out early, unless they count as failures, and which units were used', () => {
  const lives = [
    life({ removedKm: 50_000, ended: 'preventive', mode: 'lining worn' }),
    life({ number: 2, fittedKm: 50_000, source: 'used' }),
  ];
  const ofUsed = expect.stringContaining('1 of the lives is of a used converter');
  expect(notesOf(lives)).toEqual([
    expect.stringContaining('1 of the lives was taken out before failing and counts as running on'),
    ofUsed,
  ]);
  expect(notesOf(lives, 'failed_and_preventive')).toEqual([ofUsed]);
});

it('says which lives ended where nobody watched any more', () => {
  expect(notesOf([life({ removedKm: 95_000, ended: 'failed' })])).toEqual([
    expect.stringContaining('1 of the lives ended well after the last reading of its vehicle and counts as'),
  ]);
});

it('says nothing where all ran on or failed', () => {
  expect(
    notesOf([life({ removedKm: 50_000, ended: 'failed' }), life({ number: 2, fittedKm: 50_000 })]),
  ).toEqual([]);
});
