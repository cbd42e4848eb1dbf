import { describe, expect, it } from 'vitest';
import { isDeclined } from '#server/engine/declined.ts';
import { fitWeibull } from '#server/engine/life/fit-weibull.ts';
import { leftOutReasons, observeLives, type RecordedLife, type VehicleRecord } from './observe-lives.ts';

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
const vehicle = (over: Partial<VehicleRecord>): VehicleRecord => ({
  vehicle: 1,
  unit: 'B-1',
  platform: 'bus',
  depot: 'north',
  firstReadingMs: 0,
  firstKm: 200_000,
  nowKm: 260_000,
  lives: [],
  ...over,
});
const spans = (records: VehicleRecord[], how: Partial<Parameters<typeof observeLives>[1]> = {}) => {
  const { lives, leftOut } = observeLives(records, { records: 'first_reading', count: 'failed', ...how });
  return { lives: lives.map(({ entry, exit, event }) => [entry, exit, event]), leftOut };
};

describe('from the first reading', () => {
  // Failed at 120,000 before the readings began; the next was watched from 80,000 to 110,000 of its own and failed; the
  // third from its fitting, 30,000 so far.
  const lived = vehicle({
    lives: [
      life({ removedKm: 120_000, ended: 'failed' }),
      life({ number: 2, fittedKm: 120_000, removedKm: 230_000, ended: 'failed', mode: 'lining worn' }),
      life({ number: 3, fittedKm: 230_000 }),
    ],
  });

  it('lets lives enter where the vehicle stood, and leaves out those that had ended by then', () => {
    expect(spans([lived])).toEqual({
      lives: [
        [80_000, 110_000, true],
        [0, 30_000, false],
      ],
      leftOut: [{ reason: leftOutReasons.endedBefore, lives: 1 }],
    });
  });

  it('takes a life that ended exactly at the first reading as ended before it', () => {
    const ended = vehicle({
      lives: [life({ removedKm: 200_000, ended: 'failed' }), life({ number: 2, fittedKm: 200_000 })],
    });
    expect(spans([ended]).lives).toEqual([[0, 60_000, false]]);
  });

  it('takes all lives from their fitting where records are said to be complete', () => {
    expect(spans([lived], { records: 'fitting' })).toEqual({
      lives: [
        [0, 120_000, true],
        [0, 110_000, true],
        [0, 30_000, false],
      ],
      leftOut: [],
    });
  });

  it('names vehicle, life and mode of what it watched', () => {
    const [first] = observeLives([lived], { records: 'first_reading', count: 'failed' }).lives;
    expect(first).toMatchObject({
      unit: 'B-1',
      platform: 'bus',
      depot: 'north',
      life: 2,
      mode: 'lining worn',
      count: 1,
    });
  });
});

describe('how a life ended', () => {
  const ended = (over: Partial<RecordedLife>) =>
    vehicle({ lives: [life({ removedKm: 250_000, ...over }), life({ number: 2, fittedKm: 250_000 })] });

  it.each([
    ['failed', null, true, true],
    ['preventive', 'lining worn', false, true],
    ['preventive', null, false, false],
    ['retired', 'lining worn', false, false],
    [null, null, false, false],
  ] as const)(
    'counts %s with mode %s as a failure: %s, with preventive ones %s',
    (end, mode, alone, both) => {
      const record = ended({ ended: end, mode });
      expect(spans([record]).lives[0]).toEqual([200_000, 250_000, alone]);
      expect(spans([record], { count: 'failed_and_preventive' }).lives[0]).toEqual([200_000, 250_000, both]);
    },
  );
});

describe('where watching ends', () => {
  it('counts an end within 1,000 km after the last reading where it lies, and none beyond', () => {
    const ended = (removedKm: number) => vehicle({ lives: [life({ removedKm, ended: 'failed' })] });
    expect(spans([ended(261_000)]).lives).toEqual([[200_000, 261_000, true]]);
    expect(spans([ended(261_001)]).lives).toEqual([[200_000, 260_000, false]]);
    expect(spans([ended(900_000)], { records: 'fitting' }).lives).toEqual([[0, 260_000, false]]);
  });

  // Weibull lives of shape 2.2 and scale 300,000 at even shares, each read until somewhere between 20,000 and 250,000 km,
  // while every failure is put on record. Taken with the later failures the scale would come out near 250,000.
  it('finds the true life though failures go on being recorded after vehicles stop sending', () => {
    const part = (i: number, step: number) => (i * step) % 1;
    const records = Array.from({ length: 2_000 }, (_, i) => {
      const failsKm = 300_000 * (-Math.log(1 - part(i + 1, 0.6180339887))) ** (1 / 2.2);
      const nowKm = 20_000 + 230_000 * part(i + 1, 0.4142135624);
      return vehicle({ firstKm: 0, nowKm, lives: [life({ removedKm: failsKm, ended: 'failed' })] });
    });
    const { lives } = observeLives(records, { records: 'first_reading', count: 'failed' });
    const fit = fitWeibull(lives, 0.95);
    if (isDeclined(fit)) throw new Error('no fit');
    expect(Math.abs(Math.log(fit.scale / 300_000))).toBeLessThan(3 * fit.seLogScale);
    expect(Math.abs(fit.shape - 2.2)).toBeLessThan(3 * fit.seShape);
    expect(3 * fit.seLogScale).toBeLessThan(0.15);
  });
});

describe('used converters', () => {
  const used = (runKm: number | null) =>
    vehicle({
      lives: [
        life({ removedKm: 190_000, ended: 'failed' }),
        life({ number: 2, fittedKm: 190_000, source: 'used', runKm }),
      ],
    });

  it('count with what they had run before where that is known, and enter late', () => {
    expect(spans([used(80_000)]).lives).toEqual([[90_000, 150_000, false]]);
    expect(spans([used(80_000)], { records: 'fitting' }).lives[1]).toEqual([80_000, 150_000, false]);
  });

  it('are left out where it is not, unless they are looked at apart', () => {
    expect(spans([used(null)]).lives).toEqual([]);
    expect(spans([used(null)]).leftOut).toContainEqual({ reason: leftOutReasons.usedUnknown, lives: 1 });
    expect(spans([used(null)], { unknownRun: 'from_fitting' }).lives).toEqual([[10_000, 70_000, false]]);
  });
});

describe('what cannot be used', () => {
  it('counts lives that nobody registered: all, before the first fitting, and after a removal', () => {
    const none = vehicle({});
    const before = vehicle({ lives: [life({ fittedKm: 230_000 })] });
    const after = vehicle({ lives: [life({ removedKm: 240_000, ended: 'failed' })] });
    const between = vehicle({
      lives: [life({ removedKm: 210_000, ended: 'failed' }), life({ number: 2, fittedKm: 250_000 })],
    });
    for (const record of [none, before, after, between])
      expect(spans([record]).leftOut).toEqual([{ reason: leftOutReasons.notRegistered, lives: 1 }]);
    expect(spans([between]).lives).toEqual([
      [200_000, 210_000, true],
      [0, 10_000, false],
    ]);
  });

  it('needs no next converter for a retired vehicle, nor shortly after a removal', () => {
    const retired = vehicle({ lives: [life({ removedKm: 240_000, ended: 'retired' })] });
    const inTheBay = vehicle({ nowKm: 240_400, lives: [life({ removedKm: 240_000, ended: 'failed' })] });
    for (const record of [retired, inTheBay]) expect(spans([record]).leftOut).toEqual([]);
  });

  it('says of vehicles without a reading that it does not know from or up to where they were watched', () => {
    const unread = vehicle({
      firstReadingMs: null,
      firstKm: null,
      nowKm: null,
      lives: [life({ removedKm: 90_000, ended: 'failed' }), life({ number: 2, fittedKm: 90_000 })],
    });
    expect(spans([unread])).toEqual({
      lives: [],
      leftOut: [{ reason: leftOutReasons.neverRead, lives: 2 }],
    });
    expect(spans([unread], { records: 'fitting' })).toEqual({
      lives: [],
      leftOut: [{ reason: leftOutReasons.runningUnread, lives: 2 }],
    });
  });

  it('takes from their fitting the lives of a vehicle without a reading that have all ended', () => {
    const gone = vehicle({
      firstReadingMs: null,
      firstKm: null,
      nowKm: null,
      lives: [
        life({ removedKm: 90_000, ended: 'failed' }),
        life({ number: 2, fittedKm: 90_000, removedKm: 200_000, ended: 'retired' }),
      ],
    });
    expect(spans([gone], { records: 'fitting' })).toEqual({
      lives: [
        [0, 90_000, true],
        [0, 110_000, false],
      ],
      leftOut: [],
    });
  });

  it('counts of the sources that were asked for alone', () => {
    const lived = vehicle({
      lives: [
        life({ removedKm: 120_000, ended: 'failed' }),
        life({ number: 2, fittedKm: 120_000, removedKm: 150_000, source: 'rebuilt' }),
        life({ number: 3, fittedKm: 150_000, source: 'rebuilt' }),
      ],
    });
    expect(spans([lived], { sources: ['rebuilt'] })).toEqual({
      lives: [[50_000, 110_000, false]],
      leftOut: [{ reason: leftOutReasons.endedBefore, lives: 1 }],
    });
    expect(spans([lived], { sources: ['original'] })).toEqual({
      lives: [],
      leftOut: [{ reason: leftOutReasons.endedBefore, lives: 1 }],
    });
  });

  it('leaves out a life of no kilometres, and one that is fitted ahead of where the vehicle stands', () => {
    const record = vehicle({
      lives: [life({ removedKm: 260_500, ended: null }), life({ number: 2, fittedKm: 260_500 })],
    });
    expect(spans([record]).leftOut).toEqual([{ reason: leftOutReasons.nothingRun, lives: 1 }]);
  });
});
