import { describe, expect, it } from 'vitest';
import {
  ccvs,
  drive,
  eec1,
  eec2,
  etc1,
  etc2,
  type MadeDrive,
  type MadeFrame,
  makeFrame,
  NOT_AVAILABLE,
  trf1,
} from '#tests/helpers/can-frames.ts';
import { lookAtLog, readingsOf } from '#tests/helpers/read-log.ts';

const START_S = 1_767_607_200; // 2026-01-05T10:00:00Z
const driven = (fromS: number, seconds: number, lockup: number, more: Partial<MadeDrive> = {}): MadeFrame[] =>
  drive({
    fromS: START_S + fromS,
    seconds,
    lockup,
    engineRpm: 1500,
    slipRpm: 10,
    odometerKm: 120_000,
    ...more,
  });
const partsOf = async (log: readonly MadeFrame[]) =>
  (await readingsOf(log)).map(({ at, duty_pct, seconds, slip_rpm }) => [
    at?.slice(17, 23),
    duty_pct,
    seconds,
    slip_rpm,
  ]);

describe('windows of a CAN log', () => {
  it('make a reading each, with the means of what was sent', async () => {
    const log = [
      ...driven(0, 10, 1, {
        slipRpm: 10,
        fluidC: 80,
        loadPct: 127,
        torquePct: -5,
        throttlePct: 20,
        speedKmh: 80,
      }),
      ...driven(10, 10, 1, { slipRpm: 12.5, fluidC: 81.5, speedKmh: 70.5, gear: 6 }),
    ];
    const [first, second] = await readingsOf(log);
    expect(first).toEqual({
      vehicle: 'T-1',
      at: '2026-01-05T10:00:00.000Z',
      odometer_km: 120_000.2,
      slip_rpm: 10,
      duty_pct: 100,
      fluid_c: 80,
      load_pct: 127,
      torque_pct: -5,
      throttle_pct: 20,
      speed_kmh: 80,
      gear: 5,
      shifting: false,
      seconds: 10,
    });
    expect(second).toMatchObject({ slip_rpm: 12.5, fluid_c: 81.5, speed_kmh: 70.5, gear: 6, seconds: 9.99 });
  });

  it('average what changes within them', async () => {
    const log = [
      ...driven(0, 5, 1, { slipRpm: 10, loadPct: 40, gear: 5 }),
      ...driven(5, 3, 1, { slipRpm: 20, loadPct: 80, gear: 6 }),
      ...driven(8, 2.01, 1, { slipRpm: 30, loadPct: 80, gear: 6 }),
    ];
    // 500 pairs of 10, 300 of 20, 200 of 30; 100 loads of 40, 100 of 80; 50 gears each: the lower one
    expect((await readingsOf(log))[0]).toMatchObject({ slip_rpm: 17, load_pct: 60, gear: 5, seconds: 10 });
  });

  it('are cut where the lockup engages or lets go, and say so by the commanded duty', async () => {
    const log = [
      ...driven(0, 14, 0, { slipRpm: 300 }),
      ...driven(14, 13, 1),
      ...driven(27, 5, 0, { slipRpm: 250 }),
    ];
    expect(await partsOf(log)).toEqual([
      ['00.000', 0, 10, 300],
      ['10.000', 0, 4, 300],
      ['14.000', 100, 6, 10],
      ['20.000', 100, 7, 10],
      ['27.000', 0, 3, 250],
      // the end of the log, 1.99 s, is too short
    ]);
  });

  it('leave out pieces shorter than a fifth of a window, and count them', async () => {
    const log = [...driven(0, 8.5, 1), ...driven(8.5, 1.5, 0), ...driven(10, 10.01, 1)];
    expect(await partsOf(log)).toEqual([
      ['00.000', 100, 8.5, 10],
      ['10.000', 100, 10, 10],
    ]);
    const { can, doubts } = await lookAtLog(log);
    expect(can.windows).toEqual({ steady_lockup: 2, not: 0, without: 1 });
    expect(doubts.map(({ message }) => message)).toEqual([
      '1 piece between two changes of the lockup, or at the end, shorter than 2 s: left out.',
    ]);
  });

  it('are as long as they were asked for', async () => {
    const seconds = (await readingsOf(driven(0, 65.01, 1), { windowS: 30 })).map((one) => one.seconds);
    expect(seconds).toEqual([30, 30]);
    expect(await readingsOf(driven(0, 5.01, 1), { windowS: 1 })).toHaveLength(5);
  });

  it('are not steady while a shift is in process, though the lockup stays engaged', async () => {
    const log = [...driven(0, 5, 1), ...driven(5, 3, 1, { shift: 1, slipRpm: 90 }), ...driven(8, 2.01, 1)];
    const readings = await readingsOf(log);
    expect(
      readings.map(({ duty_pct, shifting, seconds, slip_rpm }) => [duty_pct, shifting, seconds, slip_rpm]),
    ).toEqual([
      [100, false, 5, 10],
      [100, true, 3, 90],
      [100, false, 2, 10],
    ]);
    expect((await lookAtLog(log)).can.windows).toEqual({ steady_lockup: 2, not: 1, without: 0 });
  });

  it('without lockup go on through shifts, and say that there was one', async () => {
    const log = [...driven(0, 5, 0), ...driven(5, 0.5, 0, { shift: 1 }), ...driven(5.5, 4.51, 0)];
    expect(await readingsOf(log)).toMatchObject([{ duty_pct: 0, shifting: true, seconds: 10 }]);
  });

  it('are over where the bus is silent, and where the log was stopped for hours', async () => {
    const log = [...driven(0, 6, 1), ...driven(11.5, 7, 1), ...driven(7200, 4, 1)];
    expect(await partsOf(log)).toEqual([
      ['00.000', 100, 5.99, 10],
      ['11.500', 100, 6.99, 10],
      ['00.000', 100, 3.99, 10],
    ]);
  });

  it('know nothing of a transmission that is not heard for a second', async () => {
    const silent = driven(5, 3, 1).filter(({ id }) => id % 256 !== 3);
    const log = [...driven(0, 5, 1), ...silent, ...driven(8, 2.5, 1)];
    // Without its speed the clutch is known to be steady no longer than that speed.
    expect(await partsOf(log)).toEqual([
      ['00.000', 100, 4.99, 10],
      ['08.000', 100, 2, 10],
    ]);
  });
});

describe('two shaft speeds', () => {
  const at = (atS: number, pgn: number, source: number, bytes: number[]) =>
    makeFrame(START_S + atS, pgn, source, bytes);
  const odometer = driven(0, 1, 1).filter(({ id }) => (id % 2 ** 24) >> 8 === 65_217);
  /** The transmission every 50 ms; the engine `lagS` later, as often. */
  const lagging = (lagS: number, everyS = 0.05) =>
    Array.from({ length: Math.round(10.1 / everyS) }, (_, i) => [
      at(i * everyS, 61_442, 3, etc1(1, 0, 1490)),
      at(i * everyS + lagS, 61_444, 0, eec1(1500)),
    ]).flat();

  it('make slip where they are read within 100 ms of each other, either first', async () => {
    expect((await readingsOf([...odometer, ...lagging(0.02)]))[0]).toMatchObject({
      slip_rpm: 10,
      duty_pct: 100,
    });
    const every100 = [...odometer, ...lagging(0.1, 0.1)];
    expect((await readingsOf(every100))[0]).toMatchObject({ slip_rpm: 10 });
  });

  it('make none where they are further apart', async () => {
    const log = [...odometer, ...lagging(0.12, 0.3)];
    await expect(readingsOf(log)).rejects.toThrow(
      /no part of it shows one state of the lockup, with both speeds/,
    );
    expect((await lookAtLog(log)).can.windows).toMatchObject({ steady_lockup: 0, not: 0 });
  });

  it('are not paired with what was read before one of them stopped coming', async () => {
    const silent = driven(4, 3, 1, { engineRpm: 1400 }).filter(({ id }) => (id % 2 ** 24) >> 8 !== 61_444);
    const log = [...driven(0, 4, 1), ...silent, ...driven(7, 3.01, 1)];
    expect(await partsOf(log)).toEqual([
      // the engine last at 3.98 s: 9 values of the input shaft are paired with it until 4.08 s, 110 rpm apart
      ['00.000', 100, 4.08, expect.closeTo((400 * 10 + 9 * 110) / 409, 1)],
      ['07.000', 100, 3, 10],
    ]);
  });
});

describe('values that are none', () => {
  /** Every so many frames of a group with other bytes. */
  const na = (log: MadeFrame[], pgn: number, bytes: number[], everyNth: number) => {
    let seen = 0;
    return log.map((frame) => {
      if ((frame.id % 2 ** 24) >> 8 !== pgn) return frame;
      seen += 1;
      return seen % everyNth === 0 ? { ...frame, bytes } : frame;
    });
  };

  it('do not overwrite valid ones, and are not "disengaged"', async () => {
    let log = driven(0, 10.01, 1);
    for (const pgn of [61_442, 61_443, 61_444, 61_445, 65_265, 65_272]) log = na(log, pgn, NOT_AVAILABLE, 3);
    expect(await readingsOf(log)).toMatchObject([
      { duty_pct: 100, seconds: 10, slip_rpm: 10, fluid_c: 85, load_pct: 55, gear: 5, shifting: false },
    ]);
  });

  it('say nothing of the lockup where they are all there is', async () => {
    const log = na(driven(0, 10, 1), 61_442, NOT_AVAILABLE, 1);
    await expect(readingsOf(log)).rejects.toThrow(
      'it never shows lockup engaged (SPN 573), nor input (turbine) shaft speed (SPN 161)',
    );
  });

  it.each([
    ['an error', 2],
    ['not available', 3],
  ])('of a lockup that becomes %s are believed for a second', async (_, state) => {
    const log = [...driven(0, 5, 1), ...driven(5, 5.01, state)];
    expect(await partsOf(log)).toEqual([['00.000', 100, 4.99, 10]]);
  });

  it('are errors by their top byte, in the counts too', async () => {
    const broken = [
      ...Array.from({ length: 20 }, (_, i) =>
        makeFrame(START_S + i / 2, 61_444, 0, [
          255,
          255,
          255,
          i % 2 === 0 ? 0xff : 0x00,
          0xfe,
          255,
          255,
          255,
        ]),
      ),
      makeFrame(START_S + 3, 65_272, 3, [255, 255, 255, 255, 0, 0xfe, 255, 255]),
      makeFrame(START_S + 3, 61_443, 0, [255, 0xfe, 0xfe, 255, 255, 255, 255, 255]),
    ];
    const log = [...driven(0, 10.01, 1), ...broken];
    expect(await readingsOf(log)).toMatchObject([
      { slip_rpm: 10, fluid_c: 85, load_pct: 55, throttle_pct: 30 },
    ]);
    const { signals } = (await lookAtLog(log)).can;
    const errorsOf = (spn: number) => signals.find((signal) => signal.spn === spn)?.error;
    expect([190, 177, 91, 92].map(errorsOf)).toEqual([20, 1, 1, 1]);
  });

  it('of a gear in park leave the gear out', async () => {
    const log = na(driven(0, 10.01, 0), 61_445, [0xfb, 255, 255, 0xfb, 255, 255, 255, 255], 1);
    expect((await readingsOf(log))[0]).not.toHaveProperty('gear');
  });

  it('of one signal do not hold the others back', async () => {
    const log = driven(0, 10.01, 1).filter(({ id }) => ![65_272, 61_443].includes((id % 2 ** 24) >> 8));
    const [reading] = await readingsOf(log);
    expect(reading).toMatchObject({ slip_rpm: 10, torque_pct: 40 });
    expect(Object.keys(reading ?? {})).not.toEqual(expect.arrayContaining(['fluid_c']));
    expect(reading).not.toHaveProperty('load_pct');
  });
});

it('takes the temperature of the seconds before where a piece has none of its own', async () => {
  const cold = [makeFrame(START_S, 65_272, 3, trf1(70))];
  const log = [
    ...cold,
    ...driven(0, 12, 0).filter(({ id }) => (id % 2 ** 24) >> 8 !== 65_272),
    ...driven(12, 8.01, 1).filter(({ id }) => (id % 2 ** 24) >> 8 !== 65_272),
  ];
  const fluids = (await readingsOf(log)).map(({ fluid_c }) => fluid_c);
  expect(fluids).toEqual([70, 70, undefined]);
});

it('reads each signal from its own address where others send the same group', async () => {
  const others = Array.from({ length: 1500 }, (_, i) => {
    const atS = START_S + 0.005 + i / 100;
    return [
      makeFrame(atS, 61_444, 15, eec1(900, 5)),
      makeFrame(atS, 61_442, 33, etc1(0, 0, 400)),
      makeFrame(atS, 61_443, 49, eec2(99, 99)),
      makeFrame(atS, 61_445, 33, etc2(2)),
      makeFrame(atS, 65_265, 23, NOT_AVAILABLE),
      makeFrame(atS, 65_265, 17, i % 50 === 0 ? ccvs(10) : NOT_AVAILABLE),
    ];
  }).flat();
  const log = [...driven(0, 15.01, 1), ...others];
  const expected = { duty_pct: 100, slip_rpm: 10, load_pct: 55, throttle_pct: 30, speed_kmh: 80, gear: 5 };
  expect(await readingsOf(log)).toMatchObject([expected, expected]);
  const { signals } = (await lookAtLog(log)).can;
  expect(signals.find(({ spn }) => spn === 84)).toMatchObject({
    source: 0,
    bus: 'can0',
    sources: [0, 17, 23],
    valid: 151,
    not_available: 0,
    low: 80,
    high: 80,
  });
});
