import type { RoadTrace } from '#server/contract/test-steps.ts';
import type { AsideSpan } from '#server/engine/road-trace/find-steady.ts';
import { thinTrace } from '#server/engine/road-trace/thin-trace.ts';
import type { Gap, SteadyStretch } from '#server/engine/road-trace/trace-model.ts';
import type { TracePlatform } from '#server/services/packets/judge-trace.ts';
import type { ReadTrace } from '#server/services/packets/read-trace.ts';
import { asideWords } from './aside-words.ts';
import { traceFields } from './trace-names.ts';

const MOST_POINTS = 1200;
/** More breaks than these would not be seen in any drawing. */
const MOST_GAPS = 200;

interface Drawn {
  file: { name: string; bytes: Uint8Array };
  read: ReadTrace;
  stepMs: number;
  gaps: readonly Gap[];
  setAside: readonly AsideSpan[];
  stretches: readonly SteadyStretch[];
  platform: TracePlatform;
}

/** The trace as it is kept and drawn: thinned, in seconds from its first row. */
export function drawTrace({ file, read, stepMs, gaps, setAside, stretches, platform }: Drawn): RoadTrace {
  const { samples, rows, columns } = read;
  const firstMs = samples.tMs[0] ?? 0;
  const toS = (ms: number) => Math.round(ms - firstMs) / 1000;
  const span = ({ fromMs, toMs }: Gap) => ({ from_s: toS(fromMs), to_s: toS(toMs) });
  const shown = gaps
    .toSorted((a, b) => b.toMs - b.fromMs - (a.toMs - a.fromMs))
    .slice(0, MOST_GAPS)
    .sort((a, b) => a.fromMs - b.fromMs);
  return {
    ...thin(read, shown, toS),
    steady: stretches.map((one) => ({
      ...span(one),
      duty_pct: tenth(one.dutyPct),
      slip_rpm: tenth(one.slipRpm),
      slope_rpm_per_s: Math.round(one.slope.estimate * 100) / 100,
      fluid_c: one.fluidC === null ? null : tenth(one.fluidC),
    })),
    set_aside: [
      ...setAside.map((one) => ({ ...span(one), reason: one.reason, says: asideWords(one.reason) })),
      ...shown.map((one) => ({ ...span(one), reason: 'gap', says: asideWords('gap') })),
    ].sort((a, b) => a.from_s - b.from_s),
    gaps: shown.map(span),
    healthy: platform.healthy.map((one) => ({
      duty_pct: tenth(one.dutyPct),
      low_rpm: tenth(one.lowRpm),
      usual_rpm: tenth(one.usualRpm),
      high_rpm: tenth(one.highRpm),
    })),
    limit_rpm: platform.limitRpm,
    reference_duty_pct: platform.referenceDutyPct,
    rows,
    seconds_between_rows: stepMs / 1000,
    told: [...read.told, ...tellGaps(gaps)],
    file: {
      name: file.name,
      bytes: file.bytes.byteLength,
      columns: Object.fromEntries(
        traceFields.flatMap((field) => {
          const column = columns[field];
          return column === undefined ? [] : [[field, column.header]];
        }),
      ),
    },
  };
}

/** No more points than may be kept; a gap is a point without slip, so that no line runs over it. */
function thin({ samples }: ReadTrace, gaps: readonly Gap[], toS: (ms: number) => number) {
  const { tMs, slipRpm, dutyPct } = samples;
  const ends = gaps.map(({ fromMs }) => lastRowAt(tMs, fromMs));
  const beside = ends.flatMap((row) => [row, row + 1]);
  const rows = thinTrace(slipRpm, dutyPct, MOST_POINTS - gaps.length, beside);
  const seconds: number[] = [];
  const slip: (number | null)[] = [];
  const duty: (number | null)[] = [];
  const breaks = new Set(ends);
  for (const row of rows) {
    const ms = tMs[row] ?? 0;
    seconds.push(toS(ms));
    slip.push(tenth(slipRpm[row] ?? 0));
    duty.push(tenth(dutyPct[row] ?? 0));
    if (!breaks.has(row)) continue;
    seconds.push(toS((ms + (tMs[row + 1] ?? ms)) / 2));
    slip.push(null);
    duty.push(null);
  }
  return { seconds, slip_rpm: slip, duty_pct: duty };
}

/** The last row of this time, by halving. */
function lastRowAt(tMs: ArrayLike<number>, ms: number): number {
  let [low, high] = [0, tMs.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((tMs[middle] ?? 0) <= ms) low = middle;
    else high = middle - 1;
  }
  return low;
}

function tellGaps(gaps: readonly Gap[]): string[] {
  if (gaps.length === 0) return [];
  const lost = Math.round(gaps.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0) / 1000);
  const count = gaps.length === 1 ? 'One gap' : `${gaps.length} gaps`;
  const shown = gaps.length > MOST_GAPS ? `; the ${MOST_GAPS} longest are drawn` : '';
  return [`${count} of ${lost} s${gaps.length === 1 ? '' : ' together'} without rows${shown}.`];
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
