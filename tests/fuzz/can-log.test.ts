import fc from 'fast-check';
import { it } from 'vitest';
import { lookAtCanLog } from '#server/services/can-log/look-at-can-log.ts';
import { type CanOptions, readCanLog } from '#server/services/can-log/read-can-log.ts';
import {
  ascii,
  broadcast,
  dm1,
  drive,
  dtc,
  type MadeFrame,
  makeFrame,
  toLogLine,
  toPrintedLine,
} from '#tests/helpers/can-frames.ts';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { hostileText } from './hostile-values.ts';
import { inPieces, mutated, pieceSizes } from './mutate-bytes.ts';
import { comparable, holdChecked, readBody } from './read-body.ts';

const START_S = 1_767_607_200;

/** Time that mostly goes on, sometimes stands, jumps or goes back. */
const anyTime = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: 0, max: 30, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(-START_S, 0, 9_000_000_000 - START_S, 7200, -5) },
);
const anyFrame: fc.Arbitrary<MadeFrame[]> = fc
  .record({
    atS: anyTime,
    pgn: fc.constantFrom(
      ...[61_442, 61_443, 61_444, 61_445, 65_217, 65_226, 65_248, 65_260, 65_265, 65_272, 60_416, 60_160],
      65_000,
    ),
    source: fc.constantFrom(0, 3, 17, 255),
    bytes: fc.array(fc.oneof(fc.constantFrom(0, 1, 2, 16, 17, 19, 32, 0xfa, 0xfb, 0xfe, 0xff), fc.nat(255)), {
      maxLength: 8,
    }),
    bus: fc.constantFrom('can0', 'can1', 'vcan-with-a-long-name'),
    to: fc.constantFrom(0, 3, 255),
  })
  .map(({ atS, pgn, source, bytes, bus, to }) => [makeFrame(START_S + atS, pgn, source, bytes, { bus, to })]);
const message: fc.Arbitrary<MadeFrame[]> = fc
  .record({
    atS: anyTime,
    source: fc.constantFrom(0, 3),
    what: fc.oneof(
      fc.string({ minLength: 9, maxLength: 40 }).map((text) => ({ pgn: 65_260, bytes: ascii(text) })),
      fc
        .array(fc.tuple(fc.nat(524_287), fc.nat(31), fc.nat(255)), { minLength: 2, maxLength: 60 })
        .map((codes) => ({
          pgn: 65_226,
          bytes: dm1(...codes.map(([spn, fmi, count]) => dtc(spn, fmi, count))),
        })),
    ),
    everyS: fc.constantFrom(0.01, 0.05, 0.76),
  })
  .map(({ atS, source, what, everyS }) =>
    broadcast(
      START_S + atS,
      what.pgn,
      source,
      what.bytes.map((byte) => byte % 256),
      { everyS },
    ),
  );
const driven: fc.Arbitrary<MadeFrame[]> = fc
  .record({ atS: anyTime, lockup: fc.nat(3), shift: fc.nat(3), hasOdometer: fc.boolean() })
  .map(({ atS, hasOdometer, ...state }) =>
    drive({
      ...{ fromS: START_S + atS, seconds: 1.2, engineRpm: 1500, slipRpm: 10, ...state },
      ...(hasOdometer ? { odometerKm: 1000 } : {}),
    }),
  );

const log = fc
  .tuple(
    fc.array(fc.oneof({ weight: 8, arbitrary: anyFrame }, message, driven), { maxLength: 6 }),
    fc.array(hostileText, { maxLength: 2 }),
    fc.boolean(),
    fc.constantFrom('\n', '\r\n'),
  )
  .map(([frames, strange, printed, end]) =>
    Buffer.from([...frames.flat().map(printed ? toPrintedLine : toLogLine), ...strange].join(end)),
  );

const optionsOf = (given: { vehicle: boolean; start: boolean; windowS: number }): CanOptions => ({
  vehicle: given.vehicle ? 'T-1' : null,
  startMs: given.start ? Date.UTC(2026, 0, 5) : null,
  windowS: given.windowS,
  findUnits: async () => [],
});

/** Left out of messages, whose frames count as frames. */
const OF_MESSAGES = /^messages of several packets|^trouble codes laid out/;

it('reads any bytes as a CAN log, the same however they are cut, and counts every line once', async () => {
  const given = fc.record({
    vehicle: fc.boolean(),
    start: fc.boolean(),
    windowS: fc.constantFrom(1, 10, 600),
  });
  await fuzz('canLog', fc.tuple(mutated(log, 2), pieceSizes, given), async ([bytes, sizes, told]) => {
    const options = optionsOf(told);
    const read = (chunks: AsyncIterable<Buffer>) => readCanLog(chunks, options);
    const whole = await readBody(read, [bytes]);
    const cut = await readBody(read, inPieces(bytes, sizes));
    holdEqual(comparable(cut), comparable(whole));
    holdChecked(whole);
    const { can, lines } = await lookAtCanLog(once(bytes), options, true);
    const text = bytes.toString('latin1');
    const wanted = text === '' ? 0 : text.split('\n').length - (text.endsWith('\n') ? 1 : 0);
    const leftOut = can.left_out.filter(({ why }) => !OF_MESSAGES.test(why));
    const counted = can.frames + leftOut.reduce((sum, one) => sum + one.lines, 0);
    hold(can.lines === wanted, () => `${can.lines} lines of ${wanted}`);
    hold(counted === wanted, () => `${counted} lines counted of ${wanted}`);
    const made = can.windows.steady_lockup + can.windows.not;
    hold(made === lines.length, () => `${made} windows made ${lines.length} readings`);
  });
});

async function* once(bytes: Buffer): AsyncGenerator<Buffer> {
  yield bytes;
}
