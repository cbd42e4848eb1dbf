import {
  ascii,
  broadcast,
  dm1,
  drive,
  dtc,
  type MadeDrive,
  type MadeFrame,
  toLogLine,
  toPrintedLine,
} from './can-frames.ts';

export const MADE_VIN = '1M8GDM9AXKP042788';
/** 2026-01-05T10:00:00Z */
export const MADE_START_S = 1_767_607_200;

/** Five minutes: from, seconds, lockup, and what else is steady meanwhile. */
const parts: { from: number; seconds: number; lockup: number; codes: string[]; more: Partial<MadeDrive> }[] =
  [
    {
      from: 0,
      seconds: 60,
      lockup: 0,
      codes: [],
      more: { slipRpm: 320, fluidC: 60, loadPct: 70, gear: 3, speedKmh: 30 },
    },
    {
      from: 60,
      seconds: 120,
      lockup: 1,
      codes: [],
      more: { slipRpm: 12, fluidC: 82.5, loadPct: 55, gear: 5, speedKmh: 80 },
    },
    {
      from: 180,
      seconds: 14,
      lockup: 0,
      codes: [],
      more: { slipRpm: 210, fluidC: 84, loadPct: 90, gear: 4, speedKmh: 60 },
    },
    {
      from: 194,
      seconds: 106,
      lockup: 1,
      codes: ['SPN 573 FMI 7', 'SPN 177 FMI 0'],
      more: {
        slipRpm: 25.5,
        fluidC: 96,
        loadPct: 127,
        torquePct: 82,
        throttlePct: 100,
        gear: 6,
        speedKmh: 90,
      },
    },
  ];
/** In steps that four bytes of storage hold. */
const kmAt = (s: number): number => 120_000 + Math.floor(s) / 8;

/** The frames of it, with seconds counted from `startS`. */
export function makeCanLog(startS: number): MadeFrame[] {
  const frames = parts.flatMap(({ from, seconds, lockup, codes, more }) => [
    ...Array.from({ length: seconds }, (_, s) =>
      drive({
        ...{ slipRpm: 0, engineRpm: 1500, speedKmh: 0, seconds: 1, lockup },
        ...more,
        fromS: startS + from + s,
        odometerKm: kmAt(from + s),
      }),
    ).flat(),
    ...(codes.length === 0
      ? []
      : Array.from({ length: seconds - 1 }, (_, s) =>
          broadcast(startS + from + s + 0.5, 65_226, 3, dm1(dtc(573, 7), dtc(177, 0))),
        ).flat()),
  ]);
  frames.push(...broadcast(startS + 200.2, 65_260, 0, ascii(`${MADE_VIN}*`)));
  return frames.sort((a, b) => a.atS - b.atS);
}

/** What is no data frame with a 29-bit identifier, one of each. */
export const strayLines = [
  '(broken',
  'DROPCOUNT: dropped 3 CAN frames on can0 socket (total drops 3)',
  '(1767607200.100000) can0 7E8#0341000000000000',
  '(1767607200.100000) can0 18FEEC00#R8',
  '(1767607200.100000) can0 18FEEC00##1AABBCCDD',
  '(1767607200.100000) can0 20000004#0008000000000000',
];

export const toText = (frames: readonly MadeFrame[], printed: boolean): string =>
  [...strayLines, ...frames.map(printed ? toPrintedLine : toLogLine)].join(printed ? '\r\n' : '\n');

/** Rows that must be stored, worked out from the parts: windows of ten seconds, cut at 194 s. */
export function expectedRows(vehicle: string, startMs: number) {
  const edges = [...Array.from({ length: 31 }, (_, i) => i * 10), 194].sort((a, b) => a - b);
  return edges.slice(0, -1).map((from, i) => {
    const to = edges[i + 1] ?? 300;
    const part = parts.findLast((one) => one.from <= from);
    if (part === undefined) throw new Error('there is no part');
    const { slipRpm, fluidC, loadPct, torquePct = 40, throttlePct = 30, gear, speedKmh } = part.more;
    // The last frame of the log comes at 299.99 s.
    const seconds = Math.min(to, 299.99) - from;
    return {
      vehicle,
      at: new Date(startMs + from * 1000),
      odometer_km: kmAt(to - 1),
      slip_rpm: slipRpm,
      duty_pct: part.lockup === 1 ? 100 : 0,
      fluid_c: fluidC,
      load_pct: loadPct,
      torque_pct: torquePct,
      throttle_pct: throttlePct,
      speed_kmh: speedKmh,
      seconds: Math.round(seconds * 1000) / 1000,
      gear,
      shifting: false,
      codes: part.codes.length === 0 ? null : part.codes,
    };
  });
}
