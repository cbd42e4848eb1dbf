import type { RoadTrace } from '#server/contract/test-steps.ts';
import type { Frame } from './frame.ts';
import type { Box } from './place-free.ts';

const leftPx = 46;
const rightPx = 40;
const topPx = 30;
/** Set-aside time, times, and the title of the axis. */
const footPx = 58;
/** Times beside one another need so much. */
const tickPx = 56;
const tickSteps = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400];
/** Room above what is looked at. */
const headroom = 1.22;
/** Overrun is drawn no deeper than this share of what lies above zero. */
const mostBelow = 0.2;
/** Zero stands clear of the axis and of what is written below it. */
const leastBelow = 0.05;

/** Where a trace is drawn, and on which scales. */
export interface TracePlot {
  box: Box;
  width: number;
  height: number;
  fromS: number;
  toS: number;
  low: number;
  top: number;
  /** the most slip that is off the scale; null where none is */
  beyondRpm: number | null;
  timeTicks: number[];
  toX: (seconds: number) => number;
  toY: (rpm: number) => number;
}

export function layOutTrace(trace: RoadTrace, { widthPx, heightPx }: Frame): TracePlot {
  const box = { left: leftPx, top: topPx, right: widthPx - rightPx, bottom: heightPx - footPx };
  const [width, height] = [box.right - box.left, box.bottom - box.top];
  const fromS = trace.seconds[0] ?? 0;
  const toS = Math.max(fromS + 1, trace.seconds.at(-1) ?? 1);
  const slips = trace.slip_rpm.filter((value) => value !== null);
  const highest = slips.reduce((most, value) => Math.max(most, value), 0);
  const lowest = slips.reduce((least, value) => Math.min(least, value), 0);
  const looked = trace.steady.length > 0 ? highestSteady(trace) : nearlyMost(slips);
  const top = Math.max(trace.limit_rpm, looked) * headroom;
  const low = Math.min(-leastBelow * top, Math.max(lowest, -mostBelow * top));
  const step = tickSteps.find((one) => (width * one) / (toS - fromS) >= tickPx) ?? 14_400;
  const timeTicks: number[] = [];
  for (let at = Math.ceil(fromS / step) * step; at <= toS; at += step) timeTicks.push(at);
  return {
    box,
    width,
    height,
    fromS,
    toS,
    low,
    top,
    beyondRpm: highest > top ? highest : null,
    timeTicks,
    toX: (seconds) => box.left + ((seconds - fromS) / (toS - fromS)) * width,
    toY: (rpm) => box.bottom - ((rpm - low) / (top - low)) * height,
  };
}

/** Slip of an open converter is some hundred rpm: what is looked at is the slip while it was steady. */
function highestSteady({ seconds, slip_rpm, steady }: RoadTrace): number {
  let most = 0;
  for (const { from_s, to_s, slip_rpm: median } of steady) {
    const within = slip_rpm.filter((_, i) => (seconds[i] ?? 0) >= from_s && (seconds[i] ?? 0) < to_s);
    most = Math.max(most, median, nearlyMost(within));
  }
  return most;
}

/** A spike may leave the scale, as may the way into a stretch. */
function nearlyMost(slips: readonly (number | null)[]): number {
  const sorted = slips.filter((value) => value !== null).sort((a, b) => a - b);
  return sorted[Math.floor(0.97 * (sorted.length - 1))] ?? 0;
}
