import type { PlatformSummary } from '#server/contract/movement.ts';

/** One scale for all strips of a view, so that platforms compare by eye. */
export interface StripScale {
  fromMs: number;
  toMs: number;
  lowRpm: number;
  highRpm: number;
}

/** A scale of so much at the least: small movement is to look small. */
const leastSpanRpm = 20;
const weekMs = 7 * 86_400_000;

export function scaleStrips(platforms: readonly PlatformSummary[]): StripScale | null {
  const weeks = platforms.flatMap((platform) => platform.weeks);
  if (weeks.length === 0) return null;
  const times = weeks.map(([week]) => Date.parse(week));
  const rpms = weeks.map(([, rpm]) => rpm);
  const [low, high] = [Math.min(0, ...rpms), Math.max(0, ...rpms)];
  const lacking = Math.max(0, leastSpanRpm - (high - low)) / 2;
  return {
    fromMs: Math.min(...times),
    toMs: Math.max(...times) + weekMs,
    lowRpm: low - lacking,
    highRpm: high + lacking,
  };
}

export interface StripFigure {
  path: string;
  zeroY: number;
  steps: { x: number; id: string }[];
}

/** Movement of one platform in a box of `width` by `height`. */
export function shapeStrip(
  { weeks, events }: Pick<PlatformSummary, 'weeks' | 'events'>,
  scale: StripScale,
  width: number,
  height: number,
): StripFigure {
  const xOf = (ms: number) => tenth(((ms - scale.fromMs) / (scale.toMs - scale.fromMs)) * width);
  const yOf = (rpm: number) =>
    tenth(height - ((rpm - scale.lowRpm) / (scale.highRpm - scale.lowRpm)) * height);
  return {
    path: weeks
      .map(([week, rpm], i) => `${i === 0 ? 'M' : 'L'}${xOf(Date.parse(week) + weekMs / 2)} ${yOf(rpm)}`)
      .join(''),
    zeroY: yOf(0),
    steps: events.map(({ at }) => ({ id: at, x: xOf(Date.parse(at)) })),
  };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
