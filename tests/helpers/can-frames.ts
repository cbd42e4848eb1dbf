/**
 * Builds logs of CAN traffic for tests, by its own tables: nothing here is shared with what reads them. A message is a group,
 * a source and bytes; time is in seconds.
 */
export interface MadeFrame {
  atS: number;
  bus: string;
  id: number;
  bytes: number[];
}

/** `to` for groups that are sent to one address, 255 for all. */
export function makeId(pgn: number, source: number, to = 255, priority = 6): number {
  const low = pgn % 256;
  const format = Math.floor(pgn / 256) % 256;
  const last = format < 240 ? to : low;
  return priority * 2 ** 26 + Math.floor(pgn / 65_536) * 2 ** 24 + format * 65_536 + last * 256 + source;
}

export const makeFrame = (
  atS: number,
  pgn: number,
  source: number,
  bytes: number[],
  { bus = 'can0', to = 255 } = {},
): MadeFrame => ({ atS, bus, id: makeId(pgn, source, to), bytes });

const hex = (value: number, digits: number) => value.toString(16).toUpperCase().padStart(digits, '0');
const secondsOf = (atS: number) => atS.toFixed(6).padStart(10, '0');

/** `(1767607200.000000) can0 0CF00203#FF…` */
export const toLogLine = ({ atS, bus, id, bytes }: MadeFrame): string =>
  `(${secondsOf(atS)}) ${bus} ${hex(id, 8)}#${bytes.map((byte) => hex(byte, 2)).join('')}`;

/** ` (000.000000)  can0  18FEDF00   [8]  8A A0 …` */
export const toPrintedLine = ({ atS, bus, id, bytes }: MadeFrame): string =>
  ` (${secondsOf(atS)})  ${bus}  ${hex(id, 8)}   [${bytes.length}]  ${bytes.map((byte) => hex(byte, 2)).join(' ')}`;

export const toLog = (frames: readonly MadeFrame[]): string => `${frames.map(toLogLine).join('\n')}\n`;

const NA = 255;
const pair = (raw: number | undefined): number[] =>
  raw === undefined ? [NA, NA] : [Math.round(raw) % 256, Math.floor(Math.round(raw) / 256)];
const four = (raw: number): number[] => [0, 8, 16, 24].map((by) => Math.floor(raw / 2 ** by) % 256);

/** Group 61442: lockup and shift as their two bits, speeds in rpm. */
export const etc1 = (lockup: number, shift: number, turbineRpm?: number, outputRpm?: number): number[] => [
  1 + lockup * 4 + shift * 16 + 192,
  ...pair(outputRpm === undefined ? undefined : outputRpm * 8),
  NA,
  NA,
  ...pair(turbineRpm === undefined ? undefined : turbineRpm * 8),
  NA,
];
/** Group 61445 */
export const etc2 = (gear: number): number[] => [gear + 125, NA, NA, gear + 125, NA, NA, NA, NA];
/** Group 61444 */
export const eec1 = (engineRpm?: number, torquePct?: number): number[] => [
  NA,
  NA,
  torquePct === undefined ? NA : torquePct + 125,
  ...pair(engineRpm === undefined ? undefined : engineRpm * 8),
  NA,
  NA,
  NA,
];
/** Group 61443 */
export const eec2 = (throttlePct: number, loadPct: number): number[] => [
  NA,
  Math.round(throttlePct * 2.5),
  loadPct,
  NA,
  NA,
  NA,
  NA,
  NA,
];
/** Group 65272 */
export const trf1 = (fluidC: number): number[] => [NA, NA, NA, NA, ...pair((fluidC + 273) * 32), NA, NA];
/** Group 65265 */
export const ccvs = (speedKmh: number): number[] => [NA, ...pair(speedKmh * 256), NA, NA, NA, NA, NA];
/** Group 65248: trip distance first, total second. */
export const vd = (tripKm: number, totalKm: number): number[] => [...four(tripKm * 8), ...four(totalKm * 8)];
/** Group 65217: total first, trip second. */
export const vdhr = (totalKm: number, tripKm: number): number[] => [
  ...four(Math.round(totalKm * 200)),
  ...four(Math.round(tripKm * 200)),
];
export const NOT_AVAILABLE: number[] = new Array(8).fill(NA);

/** Four bytes of a trouble code as group 65226 has them. */
export const dtc = (spn: number, fmi: number, count = 1): number[] => [
  spn % 256,
  Math.floor(spn / 256) % 256,
  Math.floor(spn / 65_536) * 32 + fmi,
  count,
];
export const dm1 = (...codes: number[][]): number[] => {
  const bytes = [0, 255, ...codes.flat()];
  return bytes.length < 8 ? [...bytes, ...new Array(8 - bytes.length).fill(NA)] : bytes;
};
export const ascii = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

/** A message of more than 8 bytes as the frames that announce and carry it to everybody, `everyS` apart. */
export function broadcast(
  atS: number,
  pgn: number,
  source: number,
  bytes: number[],
  { bus = 'can0', everyS = 0.05 } = {},
): MadeFrame[] {
  const packets = Math.ceil(bytes.length / 7);
  const announce = [32, ...pair(bytes.length), packets, NA, pgn % 256, Math.floor(pgn / 256) % 256, 0];
  return [
    makeFrame(atS, 60_416, source, announce, { bus }),
    ...Array.from({ length: packets }, (_, i) => {
      const part = bytes.slice(i * 7, i * 7 + 7);
      const filled = [...part, ...new Array(7 - part.length).fill(NA)];
      return makeFrame(atS + (i + 1) * everyS, 60_160, source, [i + 1, ...filled], { bus });
    }),
  ];
}

export interface MadeDrive {
  fromS: number;
  seconds: number;
  lockup: number;
  shift?: number;
  engineRpm: number;
  slipRpm: number;
  fluidC?: number;
  loadPct?: number;
  torquePct?: number;
  throttlePct?: number;
  speedKmh?: number;
  gear?: number;
  odometerKm?: number;
  bus?: string;
}

/** Steady driving: all groups at their usual rates. */
export function drive(one: MadeDrive): MadeFrame[] {
  const { bus = 'can0', speedKmh = 80, fluidC = 85, odometerKm } = one;
  const frames: MadeFrame[] = [];
  const turbineRpm = one.engineRpm - one.slipRpm;
  for (let i = 0; i < Math.round(one.seconds * 100); i++) {
    const atS = one.fromS + i / 100;
    const put = (every: number, pgn: number, source: number, bytes: () => number[]) => {
      if (i % every === 0) frames.push(makeFrame(atS, pgn, source, bytes(), { bus }));
    };
    put(1, 61_442, 3, () => etc1(one.lockup, one.shift ?? 0, turbineRpm, 1200));
    put(2, 61_444, 0, () => eec1(one.engineRpm, one.torquePct ?? 40));
    put(5, 61_443, 0, () => eec2(one.throttlePct ?? 30, one.loadPct ?? 55));
    put(10, 61_445, 3, () => etc2(one.gear ?? 5));
    put(10, 65_265, 0, () => ccvs(speedKmh));
    put(100, 65_272, 3, () => trf1(fluidC));
    if (odometerKm !== undefined) put(100, 65_217, 0, () => vdhr(odometerKm + (speedKmh * i) / 360_000, 1));
  }
  return frames;
}
