import { describe, expect, it } from 'vitest';
import { limitToPeriod, periodReasons } from './limit-to-period.ts';
import { observeLives } from './observe-lives.ts';
import type { RecordedLife, VehicleRecord } from './vehicle-record.ts';

const day = (n: number) => n * 86_400_000;
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
// 100 km a day: at 200,000 on day 0, at 240,000 on day 400. The first converter failed on day 100 at 210,000.
const record: VehicleRecord = {
  vehicle: 7,
  unit: 'B-7',
  platform: null,
  depot: null,
  firstReadingMs: day(0),
  firstKm: 200_000,
  nowKm: 240_000,
  lives: [
    life({ removedKm: 210_000, ended: 'failed', mode: 'lining worn' }),
    life({ number: 2, fittedKm: 210_000 }),
  ],
};
const track = new Map([
  [
    7,
    [
      { ms: day(50), km: 205_000 },
      { ms: day(150), km: 215_000 },
      { ms: day(400), km: 240_000 },
    ],
  ],
]);
const watch = (fromDay: number | null, toDay: number | null, one = record) => {
  const period = { fromMs: fromDay === null ? null : day(fromDay), toMs: toDay === null ? null : day(toDay) };
  const { records, leftOut } = limitToPeriod([one], period, track, 'first_reading');
  const { lives, leftOut: others } = observeLives(records, { records: 'first_reading', count: 'failed' });
  return {
    lives: lives.map((own) => [own.life, own.entry, own.exit, own.event]),
    leftOut: [...leftOut, ...others],
  };
};

describe('a period', () => {
  it('without bounds leaves everything as it is', () => {
    expect(watch(null, null)).toEqual({
      lives: [
        [1, 200_000, 210_000, true],
        [2, 0, 30_000, false],
      ],
      leftOut: [],
    });
  });

  it('lets lives enter where the vehicle stood on its first day', () => {
    expect(watch(60, null).lives).toEqual([
      [1, 206_000, 210_000, true],
      [2, 0, 30_000, false],
    ]);
    expect(watch(200, null)).toEqual({
      lives: [[2, 10_000, 30_000, false]],
      leftOut: [{ reason: periodReasons.before, lives: 1 }],
    });
  });

  it('lets run on what ended after its last day, and leaves out what was fitted later', () => {
    expect(watch(null, 80)).toEqual({
      lives: [[1, 200_000, 208_000, false]],
      leftOut: [{ reason: periodReasons.after, lives: 1 }],
    });
    expect(watch(60, 300).lives).toEqual([
      [1, 206_000, 210_000, true],
      [2, 0, 20_000, false],
    ]);
  });

  it('begins with the first reading where it is earlier than that, and ends now where it is later', () => {
    expect(watch(-500, 9_999)).toEqual(watch(null, null));
  });

  it('knows nothing of a vehicle that was first seen after it', () => {
    expect(watch(null, -1)).toEqual({ lives: [], leftOut: [{ reason: periodReasons.after, lives: 2 }] });
  });

  it('goes by the day of a removal where that is on record', () => {
    const dated = {
      ...record,
      lives: [
        life({ removedKm: 210_000, removedAtMs: day(90), ended: 'failed' }),
        life({ number: 2, fittedKm: 210_000, fittedAtMs: day(95) }),
      ],
    };
    expect(watch(null, 92, dated).lives).toEqual([[1, 200_000, 210_000, true]]);
    expect(watch(null, 89, dated).lives).toEqual([[1, 200_000, 209_875, false]]);
  });

  it('may begin before the first reading where records are complete, as far back as days are on record', () => {
    const dated = {
      ...record,
      lives: [
        life({ removedKm: 150_000, removedAtMs: day(-500), ended: 'failed' }),
        life({ number: 2, fittedKm: 150_000 }),
      ],
    };
    const begun = (recorded: 'fitting' | 'first_reading') => {
      const period = { fromMs: day(-250), toMs: null };
      const { records } = limitToPeriod([dated], period, track, recorded);
      return observeLives(records, { records: 'first_reading', count: 'failed' }).lives.map(
        ({ entry }) => entry,
      );
    };
    // 150,000 km on day -500, 200,000 km on day 0: 175,000 km on day -250.
    expect(begun('fitting')).toEqual([25_000]);
    expect(begun('first_reading')).toEqual([50_000]);
  });

  it.each(['fitting', 'first_reading'] as const)(
    'takes no failures of a vehicle without a reading that still runs, with lives since %s',
    (recorded) => {
      const unread: VehicleRecord = {
        ...record,
        firstReadingMs: null,
        firstKm: null,
        nowKm: null,
        lives: [
          life({ fittedAtMs: day(-900), removedKm: 90_000, removedAtMs: day(100), ended: 'failed' }),
          life({ number: 2, fittedKm: 90_000, fittedAtMs: day(100) }),
        ],
      };
      for (const [fromMs, toMs] of [
        [day(0), null],
        [null, day(200)],
        [day(0), day(200)],
      ] as const) {
        const { records } = limitToPeriod([unread], { fromMs, toMs }, new Map(), recorded);
        const how = { records: fromMs === null ? recorded : 'first_reading', count: 'failed' } as const;
        const { lives, leftOut } = observeLives(records, how);
        expect([lives, leftOut.map((one) => one.lives)]).toEqual([[], [2]]);
      }
    },
  );

  it('counts what ended before it of the sources that were asked for alone', () => {
    const period = { fromMs: day(200), toMs: null };
    const of = (sources: string[]) =>
      limitToPeriod([record], period, track, 'first_reading', sources).leftOut;
    expect(of(['original'])).toEqual([{ reason: periodReasons.before, lives: 1 }]);
    expect(of(['used'])).toEqual([]);
  });
});
