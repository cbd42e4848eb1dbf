import { describe, expect, it } from 'vitest';
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
