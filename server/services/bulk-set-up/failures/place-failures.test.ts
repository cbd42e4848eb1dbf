import { describe, expect, it } from 'vitest';
import { type Failure, failureInput } from '#server/contract/set-up-files/failure-input.ts';
import type { LifeRow } from '#server/services/fleet/life-rows.ts';
import { placeFailures } from './place-failures.ts';

const life = (fittedKm: number, more: Partial<LifeRow> = {}): LifeRow => ({
  vehicle: 1,
  fittedKm,
  fittedAt: null,
  source: 'rebuilt',
  removedKm: null,
  removedAt: null,
  ended: null,
  mode: null,
  supplier: null,
  runKm: null,
  ...more,
});

/** Lines from 2 on. */
const place = (failures: Partial<Failure>[], onRecord: LifeRow[] = []) => {
  const { lives, faults } = placeFailures(
    failures.map((one, index) => {
      const input = { vehicle: 'B-1', next_source: 'new' as const, ...one };
      return { line: index + 2, input, value: failureInput.parse(input) };
    }),
    onRecord,
  );
  return {
    lives: lives.map(({ value }) => [value.fitted_km, value.source, value.removed_km, value.ended]),
    faults: faults.map(({ line, field, message }) => `${line} ${field} ${message}`),
  };
};

describe('past failures', () => {
  it('end the original life where none is on record, and each the one before', () => {
    expect(place([{ odometer_km: 300 }, { odometer_km: 100, ended: 'preventive' }])).toEqual({
      lives: [
        [0, 'original', 100, 'preventive'],
        [100, 'new', 300, 'failed'],
        [300, 'new', null, null],
      ],
      faults: [],
    });
  });

  it('shorten a life that only ran on because nothing was known in between', () => {
    const onRecord = [life(0, { source: 'original', removedKm: 9000 }), life(9000)];
    expect(place([{ odometer_km: 4000 }], onRecord).lives).toEqual([
      [0, 'original', 4000, 'failed'],
      [4000, 'new', null, null],
    ]);
  });

  it.each(['2025-03-04', '2025-03-01', '2025-03-09'])(
    'of %s fit a vehicle that stood from 1 to 9 March',
    (day) => {
      const stood = { removedKm: 9000, removedAt: new Date('2025-03-01T08:00:00Z') };
      const onRecord = [life(0, stood), life(9000, { fittedAt: new Date('2025-03-09T08:00:00Z') })];
      const failure = { odometer_km: 9000, day: `${day}T12:00:00Z`, next_source: 'rebuilt' as const };
      expect(place([failure], onRecord).faults).toEqual([]);
      const late = { ...failure, day: '2025-03-11T12:00:00Z' };
      expect(place([late], onRecord).faults).toEqual([
        expect.stringMatching(/^2 day says 2025-03-11, but of .* is on record: 2025-03-01 to 2025-03-09/),
      ]);
    },
  );

  it('take the mileage that is on record where they differ by less than a kilometre', () => {
    const onRecord = [life(0, { removedKm: 9000 }), life(9000)];
    expect(place([{ odometer_km: 9000.6, next_source: 'rebuilt' }], onRecord)).toEqual({
      lives: [
        [0, 'rebuilt', 9000, 'failed'],
        [9000, 'rebuilt', null, null],
      ],
      faults: [],
    });
  });

  it.each([
    [
      'nearly another',
      { odometer_km: 8800 },
      [life(0, { removedKm: 9000 }), life(9000)],
      /^2 odometer_km is 8,800 km, and a change at 9,000 km is on record/,
    ],
    [
      'after the last end',
      { odometer_km: 20_000 },
      [life(0, { removedKm: 9000, ended: 'retired' })],
      /ended at 9,000 km \(on record\), and none is on record that ran after it$/,
    ],
    [
      'within a life that failed later',
      { odometer_km: 4000 },
      [life(0, { removedKm: 9000, ended: 'failed' }), life(9000)],
      /^2 odometer_km is 4,000 km, but the life fitted at 0 km ran on to 9,000 km/,
    ],
    [
      'of another source',
      { odometer_km: 9000 },
      [life(9000)],
      /^2 next_source says new, but of the life fitted at 9,000 km is on record: rebuilt/,
    ],
    [
      'of another ending',
      { odometer_km: 9000, ended: 'failed' as const },
      [life(0, { removedKm: 9000, ended: 'preventive' })],
      /^2 ended says failed, but/,
    ],
    [
      'before the fitting',
      { odometer_km: 9000, day: '2020-01-01T12:00:00Z' },
      [life(0, { fittedAt: new Date('2021-01-01') })],
      /^2 day says 2020-01-01, but of .* fitted on 2021-01-01, which is later/,
    ],
    [
      'followed by nothing, though something is on record',
      { odometer_km: 9000, next_source: null },
      [life(9000)],
      /^2 next_source says that nothing was fitted/,
    ],
    [
      'followed by nobody knows what',
      { odometer_km: 9000, next_source: undefined },
      [],
      /^2 next_source is missing/,
    ],
    [
      'with a run of what is new on record',
      { odometer_km: 9000, next_source: undefined, next_run_km: 5 },
      [life(9000, { source: 'new' })],
      /^2 next_run_km must be 0 or left out/,
    ],
  ])('that are %s are told with what they contradict', (_, failure, onRecord, fault) => {
    const { lives, faults } = place([failure], onRecord);
    expect(lives).toEqual([]);
    expect(faults).toEqual([expect.stringMatching(fault)]);
  });

  it('that are one in two lines, or in days that run back, name both lines', () => {
    expect(place([{ odometer_km: 500.2 }, { odometer_km: 500 }]).faults).toEqual([
      '2 odometer_km is the change of line 3 again: both are at 500 km',
    ]);
    const days = [
      { odometer_km: 900, day: '2020-01-01T12:00:00Z' },
      { odometer_km: 500, day: '2022-01-01T12:00:00Z' },
    ];
    expect(place(days).faults).toEqual([
      expect.stringMatching(
        /^2 day says 2020-01-01, but of the life fitted at 500 km line 3 has: fitted on 2022-01-01/,
      ),
    ]);
  });
});
