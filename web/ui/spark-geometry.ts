export const sparkSpanKm = 10_000;
/** The scale runs from no slip to a little past the limit, the same share in every row. */
const topShare = 1.15;
/** A stretch is 500 km; a hole of three and more is drawn as a hole. */
const holeKm = 1600;

export interface SparkFigure {
  path: string;
  end: { x: number; y: number } | null;
  limitY: number;
}

/** Slip against the last 10,000 km in a box of `width` by `height`, as a share of the vehicle's own limit. */
export function shapeSpark(
  points: readonly (readonly [number, number])[],
  limitRpm: number,
  width: number,
  height: number,
): SparkFigure {
  const yOf = (rpm: number) =>
    round(height - (Math.min(Math.max(rpm / limitRpm, 0), topShare) / topShare) * height);
  const last = points.at(-1);
  if (last === undefined) return { path: '', end: null, limitY: yOf(limitRpm) };
  const fromKm = last[0] - sparkSpanKm;
  const xOf = (km: number) => round(((km - fromKm) / sparkSpanKm) * width);
  let path = '';
  let before = Number.NEGATIVE_INFINITY;
  for (const [km, rpm] of points) {
    if (km < fromKm) continue;
    path += `${km - before > holeKm ? 'M' : 'L'}${xOf(km)} ${yOf(rpm)}`;
    before = km;
  }
  return { path, end: { x: xOf(last[0]), y: yOf(last[1]) }, limitY: yOf(limitRpm) };
}

const round = (value: number): number => Math.round(value * 10) / 10;
