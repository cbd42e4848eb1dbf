import { expect, it } from 'vitest';
import type { LifeRecordRow } from '#db/queries/read-life-records.ts';
import { toVehicleRecord } from './to-vehicle-record.ts';

const life = {
  fittedAtMs: null,
  removedKm: null,
  removedAtMs: null,
  ended: null,
  mode: null,
  supplier: null,
  runKm: null,
};
const row: LifeRecordRow = {
  vehicle: 3,
  unit: 'B-3',
  platform: null,
  depot: null,
  firstReadingAt: new Date(1_000),
  lastReadingAt: new Date(2_000),
  odometerKm: 4_000,
  offsetKm: 120_000,
  firstStretch: 200,
  firstShownKm: 100_320.5,
  lives: [
    { ...life, fittedKm: 0, removedKm: 90_000, source: 'original' },
    { ...life, fittedKm: 90_000, source: 'rebuilt' },
  ],
};

it('puts where a vehicle stands on its joined track, and numbers its lives', () => {
  expect(toVehicleRecord(row)).toMatchObject({
    firstReadingMs: 1_000,
    firstKm: 100_320.5,
    nowKm: 124_000,
    lives: [
      { number: 1, fittedKm: 0 },
      { number: 2, fittedKm: 90_000 },
    ],
  });
});

// Stretch 200 goes from 100,000 to 100,500 km.
it.each([
  ['of which retention has dropped the first reading', 200, null, 100_000],
  ['whose first reading was a fault far below', 200, 7, 100_000],
  ['whose first reading was a fault far above', 200, 900_000, 100_500],
  ['of which no stretch is made yet', null, 100_320.5, 100_320.5],
  ['that never sent', null, null, null],
])('places the first reading of a vehicle %s', (_, firstStretch, firstShownKm, firstKm) => {
  expect(toVehicleRecord({ ...row, firstStretch, firstShownKm }).firstKm).toBe(firstKm);
});
