import { describe, expect, it } from 'vitest';
import type { ReadingInput } from '#server/contract/readings.ts';
import { spellCode } from '#server/contract/spell-code.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { checkReading } from '#server/services/intake/check-reading.ts';
import type { Line } from '#server/services/intake/line.ts';
import {
  ascii,
  broadcast,
  dm1,
  drive,
  dtc,
  eec1,
  etc1,
  type MadeDrive,
  type MadeFrame,
  makeFrame,
  NOT_AVAILABLE,
  toLog,
  vd,
  vdhr,
} from '#tests/helpers/can-frames.ts';
import { lookAtLog, readingsOf, readLog } from '#tests/helpers/read-log.ts';
import { type CanOptions, readCanLog } from './read-can-log.ts';

const START_S = 1_767_607_200; // 2026-01-05T10:00:00Z
const VIN = '1M8GDM9AXKP042788';
const OTHER_VIN = '11111111111111111';
const driven = (fromS: number, seconds: number, more: Partial<MadeDrive> = {}): MadeFrame[] =>
  drive({ fromS: START_S + fromS, seconds, lockup: 1, engineRpm: 1500, slipRpm: 10, ...more });
const at = (atS: number, pgn: number, source: number, bytes: number[], bus = 'can0'): MadeFrame =>
  makeFrame(START_S + atS, pgn, source, bytes, { bus });
const vinAt = (atS: number, vin = VIN, source = 0) =>
  broadcast(START_S + atS, 65_260, source, ascii(`${vin}*`));

describe('the odometer of a log', () => {
  const everySecond = (seconds: number, frameAt: (s: number) => MadeFrame) =>
    Array.from({ length: seconds }, (_, s) => frameAt(s));
  const kmOf = async (log: MadeFrame[]) => (await readingsOf(log)).map((one) => one.odometer_km);

  it('is the total and not the trip, which come in another order in each of two groups', async () => {
    const vdLog = [...driven(0, 10.01), ...everySecond(10, (s) => at(s, 65_248, 0, vd(12.5, 250_000 + s)))];
    expect(await kmOf(vdLog)).toEqual([250_009]);
    const vdhrLog = [
      ...driven(0, 10.01),
      ...everySecond(10, (s) => at(s, 65_217, 0, vdhr(250_000.115, 12.5))),
    ];
    expect(await kmOf(vdhrLog)).toEqual([250_000.115]);
  });

  it('is the one in high resolution where both are there, however seldom', async () => {
    const log = [
      ...driven(0, 20.01),
      ...Array.from({ length: 200 }, (_, i) => at(i / 10, 65_248, 0, vd(0, 111_111))),
      at(2.05, 65_217, 0, vdhr(111_110.5, 0)),
    ];
    expect(await kmOf(log)).toEqual([111_110.5, 111_110.5]);
    const { doubts } = await lookAtLog(log);
    expect(doubts.map(({ message }) => message)).toEqual([
      'Odometers: 111,111 km from address 0 (SPN 917), which is read; 111,111 km from address 0 (SPN 245).',
    ]);
  });

  it('is that of one address where two differ, not whichever came last', async () => {
    const log = [
      ...driven(0, 20.01),
      ...everySecond(20, (s) => at(s + 0.2, 65_217, 23, vdhr(500_000, 0))),
      ...everySecond(19, (s) => at(s + 0.1, 65_217, 0, vdhr(300_000, 0))),
      ...everySecond(20, (s) => at(s + 0.3, 65_217, 49, NOT_AVAILABLE)),
    ];
    expect(await kmOf(log)).toEqual([300_000, 300_000]);
    const { signals } = (await lookAtLog(log)).can;
    expect(signals.find(({ spn }) => spn === 917)).toMatchObject({
      source: 0,
      sources: [0, 23, 49],
      valid: 19,
      low: 300_000,
      high: 300_000,
    });
  });

  it('is that of the address that fills it far more often', async () => {
    const log = [
      ...driven(0, 10.01),
      ...everySecond(10, (s) => at(s + 0.2, 65_217, 23, vdhr(500_000, 0))),
      at(3.5, 65_217, 0, vdhr(300_000, 0)),
    ];
    expect(await kmOf(log)).toEqual([500_000]);
  });

  it('is not FAFFFFFF, which is valid by its top byte, and not 0', async () => {
    const nonsense = [0xff, 0xff, 0xff, 0xfa, 0, 0, 0, 0];
    const log = [
      ...driven(0, 10.01),
      ...everySecond(10, (s) => at(s + 0.1, 65_217, 0, nonsense)),
      ...everySecond(10, (s) => at(s + 0.2, 65_217, 17, vdhr(0, 0))),
      ...everySecond(5, (s) => at(s + 0.3, 65_217, 23, vdhr(200_000, 0))),
    ];
    expect(await kmOf(log)).toEqual([200_000]);
  });

  it('is the first one for what came up to five minutes before it; earlier windows can be completed', async () => {
    const log = [
      ...driven(0, 30),
      ...driven(310, 10),
      at(325, 65_217, 0, vdhr(100_000, 0)),
      ...driven(330, 10.01),
    ];
    // windows at 0, 10, 20 end at 10, 20 and 29.99 s; from 25 s on it is 300 s to the odometer or less
    expect(await kmOf(log)).toEqual([undefined, undefined, 100_000, 100_000, 100_000, 100_000]);
    const [first] = await readLog(log);
    expect(checkReading(first?.value, Date.now()).errors).toEqual([
      { field: 'odometer_km', message: 'is missing (or give odometer_mi)' },
    ]);
    const completed = { ...JSON.parse(first?.raw ?? ''), odometer_km: 99_990 };
    expect(checkReading(completed, Date.now()).errors).toBeNull();
  });

  it('is not believed five minutes after it came last', async () => {
    const log = [at(0, 65_217, 0, vdhr(100_000, 0)), ...driven(0, 10), ...driven(290, 20.01)];
    expect(await kmOf(log)).toEqual([100_000, 100_000, undefined]);
  });
});

describe('trouble codes', () => {
  const codesOf = async (log: MadeFrame[]) => (await readingsOf(log)).map(({ codes }) => codes);

  it('come with the windows in which they were active, from transmission and engine alike', async () => {
    const log = [
      ...driven(0, 30.01),
      at(12, 65_226, 3, dm1(dtc(573, 7))),
      at(22, 65_226, 0, dm1(dtc(190, 2, 127))),
      at(25, 65_226, 33, dm1(dtc(1000, 3))),
    ];
    expect(await codesOf(log)).toEqual([undefined, ['SPN 573 FMI 7'], ['SPN 190 FMI 2']]);
    expect((await lookAtLog(log)).can.codes).toEqual([
      { code: 'SPN 573 FMI 7', source: 3, seconds: 3 },
      { code: 'SPN 190 FMI 2', source: 0, seconds: 3 },
      { code: 'SPN 1000 FMI 3', source: 33, seconds: 3 },
    ]);
    expect(spellCode('spn=573 fmi=7')?.code).toBe('SPN 573 FMI 7');
  });

  it('are active from message to message, and end with one that does not name them', async () => {
    const log = [
      ...driven(0, 30.01),
      ...Array.from({ length: 8 }, (_, i) => at(5 + i, 65_226, 3, dm1(dtc(573, 7)))),
      at(12.5, 65_226, 3, dm1(dtc(0, 0, 0))),
    ];
    expect(await codesOf(log)).toEqual([['SPN 573 FMI 7'], ['SPN 573 FMI 7'], undefined]);
    expect((await lookAtLog(log)).can.codes).toEqual([{ code: 'SPN 573 FMI 7', source: 3, seconds: 7.5 }]);
  });

  it('are none where the message says that none is active', async () => {
    const log = [...driven(0, 10.01), at(2, 65_226, 3, dm1(dtc(0, 0, 0))), at(3, 65_226, 0, NOT_AVAILABLE)];
    expect(await codesOf(log)).toEqual([undefined]);
  });

  it('of more than one come in several packets, also while another source and another bus speak', async () => {
    const log = [
      ...driven(0, 10.01),
      ...broadcast(START_S + 2, 65_226, 3, dm1(dtc(573, 7), dtc(177, 0))),
      ...broadcast(START_S + 2.01, 65_226, 0, dm1(dtc(190, 2), dtc(520_000, 31))),
      ...broadcast(START_S + 2.02, 65_226, 3, dm1(dtc(573, 7), dtc(161, 4)), { bus: 'can1' }),
    ];
    expect((await codesOf(log))[0]?.toSorted()).toEqual([
      'SPN 161 FMI 4',
      'SPN 177 FMI 0',
      'SPN 190 FMI 2',
      'SPN 520000 FMI 31',
      'SPN 573 FMI 7',
    ]);
  });

  it('of which a packet is missing or late are lost and counted', async () => {
    const [announced, first, second] = broadcast(START_S + 2, 65_226, 3, dm1(dtc(573, 7), dtc(177, 0)));
    const late = broadcast(START_S + 5, 65_226, 3, dm1(dtc(573, 7), dtc(177, 0)), { everyS: 0.8 });
    const log = [...driven(0, 10.01), announced as MadeFrame, second as MadeFrame, ...late];
    expect(first?.bytes[0]).toBe(1);
    expect(await codesOf(log)).toEqual([undefined]);
    expect((await lookAtLog(log)).can.left_out.map(({ why, lines }) => [why, lines])).toEqual([
      ['messages of several packets of which one is missing', 1],
      ['messages of several packets that stopped for more than 750 ms', 1],
    ]);
  });
});

describe('the vehicle of a log', () => {
  const log = [...driven(0, 20.01, { odometerKm: 100_000 }), ...vinAt(18)];
  const nameless = driven(0, 20.01);
  const unnamed = { vehicle: null };
  const vehiclesOf = async (frames: MadeFrame[], options = {}) =>
    (await readingsOf(frames, { ...unnamed, ...options })).map(({ vehicle }) => vehicle);

  it('is the one given, whatever VIN is in it', async () => {
    expect((await readingsOf(log, { vehicle: 'B-7' })).map(({ vehicle }) => vehicle)).toEqual(['B-7', 'B-7']);
  });

  it('is the registered one with the VIN in it, which may come late', async () => {
    const findUnits = async (vin: string) => (vin === VIN ? ['B-12'] : []);
    expect(await vehiclesOf(log, { findUnits })).toEqual(['B-12', 'B-12']);
  });

  it('is the VIN itself where nobody has it, with a word of it', async () => {
    expect(await vehiclesOf(log)).toEqual([VIN, VIN]);
    const { can, lacks, doubts } = await lookAtLog(log, unnamed);
    expect(can.vins).toEqual([{ vin: VIN, source: 0, warning: null }]);
    expect(lacks).toEqual([]);
    expect(doubts).toContainEqual({
      about: 'vehicle',
      column: null,
      message: `No vehicle has the VIN ${VIN} yet: a new one is made, with the VIN as its name.`,
    });
  });

  it('is told by a short VIN in a single frame too, with a warning', async () => {
    const short = [...driven(0, 10.01), at(1, 65_260, 0, ascii('AB12345*'))];
    expect(await vehiclesOf(short)).toEqual(['AB12345']);
    expect((await lookAtLog(short, unnamed)).can.vins[0]?.warning).toBe('has 7 characters; a VIN has 17.');
  });

  it('is asked for where the log has no VIN, several, or one that two vehicles have', async () => {
    const asks = (frames: MadeFrame[], options = {}) =>
      expect(readLog(frames, { ...unnamed, ...options })).rejects;
    await asks(nameless).toMatchObject({
      code: 'invalid_request',
      errors: [{ field: 'vehicle', message: 'is needed: the log has no VIN' }],
    });
    const several = [...log, ...vinAt(5, OTHER_VIN, 33)];
    const message = `is needed: the log has the VINs ${OTHER_VIN}, ${VIN}`;
    await asks(several).toMatchObject({ errors: [{ field: 'vehicle', message }] });
    expect((await lookAtLog(several, unnamed)).lacks).toEqual([{ field: 'vehicle', message }]);
    expect(await vehiclesOf(several, { vehicle: 'B-7' })).toEqual(['B-7', 'B-7']);
    await asks(log, { findUnits: async () => ['B-1', 'B-2'] }).toMatchObject({
      errors: [{ field: 'vehicle', message: `is needed: the VIN ${VIN} is that of B-1 and of B-2` }],
    });
  });

  it('is not doubted where two control units tell the same VIN', async () => {
    expect(await vehiclesOf([...log, ...vinAt(5, VIN, 3)])).toEqual([VIN, VIN]);
  });

  it('given is doubted where the VIN is that of another', async () => {
    const { doubts } = await lookAtLog(log, { vehicle: 'B-7', findUnits: async () => ['B-12'] });
    expect(doubts.map(({ message }) => message)).toContain('The VIN in the log is that of B-12, not of B-7.');
  });
});

describe('the clock of a log', () => {
  const fromZero = drive({
    fromS: 0,
    seconds: 20.01,
    lockup: 1,
    engineRpm: 1500,
    slipRpm: 10,
    odometerKm: 9000,
  });

  it('that counts from its own start needs to be told when that was', async () => {
    await expect(readLog(fromZero)).rejects.toMatchObject({
      code: 'invalid_request',
      errors: [
        {
          field: 'start',
          message: 'is needed: the clock of the log does not show the time, it counts from its own start',
        },
      ],
    });
    const { lacks, lines, can } = await lookAtLog(fromZero);
    expect(lacks.map(({ field }) => field)).toEqual(['start']);
    expect(can).toMatchObject({ clock: 'from_start', first_s: 0, last_s: 20 });
    expect(lines.map(({ value }) => checkReading(value, Date.now()).errors)).toEqual(
      lines.map(() => [{ field: 'at', message: 'is missing' }]),
    );
  });

  it('counts from the start that was given', async () => {
    const startMs = Date.parse('2026-03-04T05:06:07.500Z');
    expect((await readingsOf(fromZero, { startMs })).map((one) => one.at)).toEqual([
      '2026-03-04T05:06:07.500Z',
      '2026-03-04T05:06:17.500Z',
    ]);
  });

  it('that shows the time is believed, whatever start is given', async () => {
    const [first] = await readingsOf(driven(0, 10.01), { startMs: 0 });
    expect(first?.at).toBe('2026-01-05T10:00:00.000Z');
    expect((await lookAtLog(driven(0, 10.01))).can.clock).toBe('since_1970');
  });

  it('that was never set is pointed out', async () => {
    const never = drive({
      fromS: 946_684_800,
      seconds: 5,
      lockup: 1,
      engineRpm: 1500,
      slipRpm: 10,
      odometerKm: 9,
    });
    expect((await lookAtLog(never)).doubts).toEqual([
      {
        about: 'time',
        column: null,
        message: 'The log says that it began on 2000-01-01: was the clock of the logger set?',
      },
    ]);
  });

  it('that goes back by a second or less is taken as disorder, by more as begun anew', async () => {
    const swapped = driven(0, 10.01);
    for (let i = 10; i + 1 < swapped.length; i += 7) {
      const [a, b] = [swapped[i] as MadeFrame, swapped[i + 1] as MadeFrame];
      swapped[i] = b;
      swapped[i + 1] = a;
    }
    expect(await readingsOf(toLog(swapped))).toMatchObject([{ slip_rpm: 10, seconds: 10 }]);
    const setBack = toLog([...driven(0, 6), ...driven(-3600, 6)]);
    expect((await readingsOf(setBack)).map((one) => [one.at, one.seconds])).toEqual([
      ['2026-01-05T10:00:00.000Z', 5.99],
      ['2026-01-05T09:00:00.000Z', 5.99],
    ]);
  });

  it('from its own start that begins anew cannot be dated any more', async () => {
    const twice = toLog([...fromZero, ...fromZero]);
    const startMs = Date.parse('2026-03-04T05:06:07Z');
    const moments = (await readingsOf(twice, { startMs })).map((one) => one.at);
    expect(moments).toEqual(['2026-03-04T05:06:07.000Z', '2026-03-04T05:06:17.000Z', undefined, undefined]);
    expect((await lookAtLog(twice, { startMs })).doubts.map(({ message }) => message)).toContain(
      'The clock of the log goes back 1 time. What comes after cannot be dated and is refused; bring it by itself, with its own start.',
    );
  });
});

it('does not read a bus twice that was logged on two interfaces', async () => {
  const once = [...driven(0, 20.01, { odometerKm: 100_000 }), ...vinAt(3)];
  const log = once.flatMap((frame) => [frame, { ...frame, atS: frame.atS + 0.0004, bus: 'can1' }]);
  expect(await readingsOf(log)).toEqual(await readingsOf(once));
  const { can, doubts } = await lookAtLog(log);
  expect(can.signals.find(({ spn }) => spn === 161)).toMatchObject({ bus: 'can0', valid: 2001 });
  expect(can.vins).toHaveLength(1);
  expect(doubts.map(({ message }) => message)).toContain(
    'Signals came on more than one of can0, can1 from the same address; they are read from can0 alone.',
  );
});

it('says why no reading can be made of a log', async () => {
  const refuses = (text: string) => expect(readLog(text)).rejects;
  await refuses('').toMatchObject({ code: 'body_empty', message: 'The log is empty.' });
  await refuses('(1.0) can0 123#00\n(1.1) can0 123#00\n').toThrow(
    'The log has no data frame with a 29-bit identifier. Its lines are mostly frames with an 11-bit identifier.',
  );
  await refuses('(1.0) can0 18FEF100#FFFFFFFFFFFFFFFF').toThrow(
    'never shows lockup engaged (SPN 573), nor engine speed (SPN 190), nor input (turbine) shaft speed (SPN 161)',
  );
});

it('says what was in a log', async () => {
  const { can } = await lookAtLog([...driven(0, 12, { odometerKm: 100_000 }), ...vinAt(13)]);
  expect(can).toMatchObject({
    // 1200 + 600 + 240 + 120 + 120 + 12 + 12, and 4 of the VIN
    lines: 2308,
    frames: 2308,
    clock: 'since_1970',
    first_s: START_S,
    windows: { steady_lockup: 1, not: 0, without: 1 },
  });
  expect(can.groups.slice(0, 2)).toEqual([
    { pgn: 61_442, source: 3, name: 'ETC1, transmission shafts and lockup', frames: 1200 },
    { pgn: 61_444, source: 0, name: 'EEC1, engine speed and torque', frames: 600 },
  ]);
  expect(can.groups.reduce((sum, { frames }) => sum + frames, 0)).toBe(can.frames);
});

describe('a log that comes in pieces', () => {
  const options = { vehicle: null, startMs: null, windowS: 1, findUnits: async () => [] };
  async function collect(pieces: (string | Error)[], changes: Partial<CanOptions> = {}) {
    async function* chunks() {
      for (const piece of pieces) {
        if (piece instanceof Error) throw piece;
        yield Buffer.from(piece);
      }
    }
    const lines: Line[] = [];
    try {
      for await (const block of readCanLog(chunks(), { ...options, ...changes })) lines.push(...block);
      return { lines, fault: null };
    } catch (fault) {
      return { lines, fault };
    }
  }
  const broken = new BodyFault('body_broken', 'The connection ended before the body did.', { cutOff: true });

  it('gives the windows that were whole before it breaks off, and no piece that would be longer the next time', async () => {
    const whole = toLog([...vinAt(-1), ...driven(0, 4.8, { odometerKm: 100_000 })]);
    const { lines, fault } = await collect([whole.slice(0, -1), broken]);
    expect(fault).toBe(broken);
    expect(lines.map(({ value }) => (value as ReadingInput).seconds)).toEqual([1, 1, 1, 1]);
  });

  it('leaves windows out that still wait for the odometer where it breaks off: the next time they have it', async () => {
    const start = toLog(driven(0, 4.8));
    const cut = await collect([start, broken], { vehicle: 'B-1' });
    expect(cut).toEqual({ lines: [], fault: broken });
    const whole = await collect([start, toLog([at(5, 65_217, 0, vdhr(100_000, 0))])], { vehicle: 'B-1' });
    expect(whole.lines.length).toBeGreaterThanOrEqual(4);
    for (const { value } of whole.lines) expect(value).toMatchObject({ odometer_km: 100_000 });
  });

  it('breaks off without a word of vehicle or start where nothing can be named', async () => {
    const { lines, fault } = await collect([toLog(driven(0, 4.5)), broken]);
    expect({ lines, fault }).toEqual({ lines: [], fault: broken });
  });

  it('waits for a VIN through 50,000 windows, then holds to the one that it has', async () => {
    const seconds = (from: number, to: number) =>
      toLog(
        Array.from({ length: to - from }, (_, i) => [
          at(from + i, 61_442, 3, etc1(0, 0, 500)),
          at(from + i, 61_444, 0, eec1(800)),
        ]).flat(),
      );
    const start = toLog([at(-2, 65_217, 0, vdhr(100_000, 0)), ...vinAt(-1)]);
    const early = seconds(0, 50_003);
    const { lines, fault } = await collect([
      start,
      early,
      seconds(50_003, 50_006),
      toLog(vinAt(50_006, OTHER_VIN)),
    ]);
    expect(lines.length).toBeGreaterThan(50_000);
    expect(lines[0]?.value).toMatchObject({ vehicle: VIN, duty_pct: 0, slip_rpm: 300 });
    expect(fault).toMatchObject({
      code: 'body_broken',
      message: `The log shows another VIN late: ${VIN}, ${OTHER_VIN}. Name the vehicle, or send the parts by themselves.`,
    });
    const named = await collect([start, early], { vehicle: 'B-1' });
    expect(named.fault).toBeNull();
  });
});
