import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drive, makeFrame, toLog, toLogLine, toPrintedLine } from '#tests/helpers/can-frames.ts';
import type { LineKind } from './line-kinds.ts';
import { createLineScanner } from './scan-lines.ts';

interface SeenFrame {
  line: number;
  atUs: number;
  bus: string;
  id: number;
  bytes: number[];
}

function scan(chunks: readonly Buffer[], whole = true) {
  const frames: (SeenFrame & { number: number })[] = [];
  const others: { kind: LineKind; line: number; raw: string }[] = [];
  const scanner = createLineScanner(
    {
      takeFrame: ({ line, atUs, bus, id, length, data }) =>
        frames.push({ line, atUs, bus: '', number: bus, id, bytes: [...data.subarray(0, length)] }),
      takeOther: (kind, line, raw) => others.push({ kind, line, raw }),
    },
    (kind) => !others.some((other) => other.kind === kind),
  );
  for (const chunk of chunks) scanner.push(chunk);
  scanner.end(whole);
  const names = scanner.busNames();
  return {
    frames: frames.map(({ number, ...frame }): SeenFrame => ({ ...frame, bus: names[number] ?? '' })),
    others,
    lines: scanner.lines(),
  };
}
const scanText = (text: string, whole = true) => scan([Buffer.from(text, 'latin1')], whole);

describe('a line of a CAN log', () => {
  it('is a frame in the form that is logged', () => {
    expect(scanText('(1436509052.249713) vcan0 18FEF803#FFFFFFFF002DFFFF\n')).toEqual({
      frames: [
        {
          line: 1,
          atUs: 1_436_509_052_249_713,
          bus: 'vcan0',
          id: 0x18fef803,
          bytes: [255, 255, 255, 255, 0, 45, 255, 255],
        },
      ],
      others: [],
      lines: 1,
    });
  });

  it.each([
    ' (000.000000)  can0  18FEDF00   [8]  8A A0 01 02 03 04 05 0F',
    '(000.000000) can0 18FEDF00#8AA001020304050F',
    '(0.0) can0 18fedf00#8aa001020304050f',
    '(0.000000000) can0 18FEDF00#8AA001020304050F R',
    '(000.000000) can0 18FEDF00#8AA001020304050F  \r',
    ' (000.000000)  can0  RX - -  18FEDF00   [8]  8A A0 01 02 03 04 05 0F',
    ' (000.000000)  can0  TX B E  18FEDF00   [8]  8A A0 01 02 03 04 05 0F',
    " (000.000000)  can0  18FEDF00   [8]  8A A0 01 02 03 04 05 0F   '........'",
  ])('is the same frame as %j', (text) => {
    const { frames, others } = scanText(`${text}\n`);
    expect(others).toEqual([]);
    expect(frames).toEqual([
      { line: 1, atUs: 0, bus: 'can0', id: 0x18fedf00, bytes: [0x8a, 0xa0, 1, 2, 3, 4, 5, 15] },
    ]);
  });

  it.each([
    ['(1.5) a 18FEDF00#', 1_500_000, []],
    ['(1.05) a 18FEDF00#00', 1_050_000, [0]],
    ['(1.0000019) a 00000123#FF', 1_000_001, [255]],
    [' (1.000002)  a  18FEDF00   [0] ', 1_000_002, []],
  ])('%j has its time to the microsecond', (text, atUs, bytes) => {
    expect(scanText(text).frames).toMatchObject([{ atUs, bytes }]);
  });

  it.each<[LineKind, string]>([
    ['remote', '(1.0) can0 18FEEC00#R'],
    ['remote', '(1.0) can0 18FEEC00#R8'],
    ['remote', '(1.0) can0 123#R'],
    ['remote', ' (1.0)  can0  18FEEC00   [0]  remote request'],
    ['remote', ' (1.0)  can0  18FEEC00   [8]  remote request'],
    ['flexible', '(1.0) can0 18FEEC00##1AABBCC'],
    ['flexible', ' (1.0)  can0  18FEEC00  [12]  00 01 02 03 04 05 06 07 08 09 0A 0B'],
    ['flexible', ' (1.0)  can0  18FEEC00  [08]  00 01 02 03 04 05 06 07'],
    ['short_identifier', '(1.0) can0 7E8#0341000000000000'],
    ['short_identifier', ' (1.0)  can0  7E8   [3]  00 01 02'],
    ['error_frame', '(1.0) can0 20000004#0008000000000000'],
    ['error_frame', ' (1.0)  can0  20000080   [8]  00 00 00 00 00 00 00 00   ERRORFRAME'],
    ['dropped', 'DROPCOUNT: dropped 17 CAN frames on can0 socket (total drops 17)'],
    ['no_time', '  can0  18FEDF00   [8]  8A A0 01 02 03 04 05 0F'],
    ['no_time', 'can0 18FEDF00#8AA0'],
    ['text', 'Enabling standard output'],
    ['empty', ''],
    ['empty', ' \t '],
    ['broken', '(1.0) can0 18FEDF00#8AA'],
    ['broken', '(1.0) can0 18FEDF00#8AA0010203040506FF07'],
    ['broken', '(1.0) can0 18FEDF00#8AG0'],
    ['broken', '(1.0) can0 18FEDF00#8AA0 junk'],
    ['broken', '(1.0) can0 18FEDF0#8AA0'],
    ['broken', '(1.0) can0 018FEDF00#8AA0'],
    ['broken', '(1.0) can0 FFFFFFFF#8AA0'],
    ['broken', '(1.0) can0 800#8AA0'],
    ['broken', '(1.0) can0'],
    ['broken', '(1.0) can0 '],
    ['broken', '(1.0)can0 18FEDF00#8AA0'],
    ['broken', '(10) can0 18FEDF00#8AA0'],
    ['broken', '(.5) can0 18FEDF00#8AA0'],
    ['broken', '(1.) can0 18FEDF00#8AA0'],
    ['broken', '(-1.5) can0 18FEDF00#8AA0'],
    ['broken', '(99999999999.5) can0 18FEDF00#8AA0'],
    ['broken', '('],
    ['broken', ' (1.0)  can0  18FEDF00   [8]  8A A0'],
    ['broken', ' (1.0)  can0  18FEDF00   [1]  8A A0'],
    ['broken', ' (1.0)  can0  18FEDF00   [9]  00 00 00 00 00 00 00 00 00'],
    ['broken', '\x00\x01\xff'],
    ['broken', `(1.0) can0 18FEDF00#${'00'.repeat(600)}`],
  ])('is %s and no frame: %j', (kind, text) => {
    const before = '(0.9) can0 18FEDF00#00';
    const after = '(1.1) can0 18FEDF00#01';
    const { frames, others, lines } = scanText(`${before}\n${text}\n${after}\n`);
    expect(frames.map(({ line, bytes }) => [line, bytes])).toEqual([
      [1, [0]],
      [3, [1]],
    ]);
    expect(others.map(({ kind: found, line }) => [found, line])).toEqual([[kind, 2]]);
    expect(others[0]?.raw.slice(0, 20)).toBe(text.trimEnd().slice(0, 20));
    expect(lines).toBe(3);
  });

  it('is kept as an example where it is the first of its kind', () => {
    const { others } = scanText('one\n(1.0) can0\ntwo\n');
    expect(others).toEqual([
      { kind: 'text', line: 1, raw: 'one' },
      { kind: 'broken', line: 2, raw: '(1.0) can0' },
      { kind: 'text', line: 3, raw: '' },
    ]);
  });

  it('counts at the end without a line feed, unless the log was cut off within it', () => {
    const text = '(0.9) can0 18FEDF00#00\n(1.0) can0 18FEDF00#0102';
    expect(scanText(text).frames).toHaveLength(2);
    const { frames, others } = scanText(text, false);
    expect(frames).toHaveLength(1);
    expect(others).toEqual([{ kind: 'cut_off', line: 2, raw: '(1.0) can0 18FEDF00#0102' }]);
    expect(scanText(`${text}\n`, false).frames).toHaveLength(2);
  });

  it('may name 32 interfaces and no more', () => {
    const lines = Array.from({ length: 40 }, (_, i) => `(1.0) can${i} 18FEDF00#00`);
    const { frames, others } = scanText(lines.join('\n'));
    expect(frames.map(({ bus }) => bus)).toEqual(Array.from({ length: 32 }, (_, i) => `can${i}`));
    expect(others).toHaveLength(8);
    expect(others[0]).toMatchObject({ kind: 'many_buses', line: 33 });
  });
});

const driven = [
  ...drive({ fromS: 1_767_607_200, seconds: 1, lockup: 1, engineRpm: 1500, slipRpm: 10 }),
  makeFrame(1_767_607_201.5, 65_217, 0, [1, 2, 3], { bus: 'vcan1' }),
];

it('reads both forms as the same frames', () => {
  const logged = scanText(toLog(driven));
  const printed = scanText(driven.map(toPrintedLine).join('\r\n'));
  expect(logged.frames).toHaveLength(driven.length);
  expect(printed).toEqual(logged);
});

it('reads the same however the log is cut', () => {
  const lines = [
    '',
    ...driven.slice(0, 25).map(toLogLine),
    'DROPCOUNT: 1',
    ...driven.slice(-25).map(toPrintedLine),
  ];
  lines.splice(
    7,
    0,
    'x'.repeat(2000),
    `(1.0) can0 18FEDF00#8A${' '.repeat(1200)}`,
    '(1.0) can0 123#R',
    '(1.0) can0 18FEDF00#8AA',
  );
  const bytes = Buffer.from(lines.join('\n'));
  const whole = scan([bytes]);
  expect(whole.lines).toBe(lines.length);
  expect(whole.frames.length + whole.others.length).toBe(lines.length);
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 1, maxLength: 20 }), (sizes) => {
      const chunks: Buffer[] = [];
      for (let from = 0, i = 0; from < bytes.length; i++) {
        const size = sizes[i % sizes.length] ?? 1;
        chunks.push(bytes.subarray(from, from + size));
        from += size;
      }
      expect(scan(chunks)).toEqual(whole);
    }),
    { numRuns: 60, seed: 730_511 },
  );
});
