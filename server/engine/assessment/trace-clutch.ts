import { findBandContext } from '#server/engine/platform/find-band-context.ts';
import type { PlatformContext, PlatformSettings } from '#server/engine/platform/platform-context.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import type { AssessmentInput } from './assessment-input.ts';
import { buildBandSeries } from './build-band-series.ts';
import type { Series, SeriesPoint } from './build-series.ts';
import { listFallsBack } from './list-falls-back.ts';

/** A fall back to healthy that nobody reported, by the means of the four stretches before and after it. */
export interface Fall {
  fromRpm: number;
  toRpm: number;
  atKm: number;
  atMs: number;
}

/** What the stretches of a vehicle show of the clutch that is fitted now. */
export interface ClutchTrace {
  /** of all lives, the one at the reference point first */
  series: [reference: Series, ...commands: Series[]];
  /** at the reference point, of the whole life */
  ofLife: SeriesPoint[];
  /** series of the clutch alone: of its life, since the last fall */
  ofClutch: [reference: Series, ...commands: Series[]];
  fall: Fall | null;
}

/** Stretches on either side of a fall that tell its height. */
const SIDE = 4;

/**
 * Trace of the clutch that is fitted now: its series at the reference point, begun anew at the last fall back to healthy
 * that nobody reported.
 *
 * @param input    one vehicle
 * @param settings of its platform
 * @param context  learned from its platform
 * @returns all series, the points of the asked life, the series of the clutch, and the fall
 * Source: {@link buildSeries}, {@link listFallsBack}. Edges: no stretches of the life give no points. Errors: none.
 * @example traceClutch({ ...nothing, stretches: [] }, settings, unknownPlatform).ofLife // []
 */
export function traceClutch(
  input: Pick<AssessmentInput, 'stretches' | 'life'>,
  settings: PlatformSettings,
  context: PlatformContext,
): ClutchTrace {
  const series = buildBandSeries(input.stretches, settings, context);
  const [reference, ...commands] = series;
  const inLife = (one: Series) => one.points.filter((point) => point.life === input.life.number);
  const ofLife = inLife(reference);
  const fallsAt = listFallsBack(ofLife, findBandContext(context, REFERENCE_BAND)).at(-1);
  const points = ofLife.slice(fallsAt ?? 0);
  const fromKm = points[0]?.km ?? Number.POSITIVE_INFINITY;
  const since = (one: Series): Series => ({ ...one, points: inLife(one).filter(({ km }) => km >= fromKm) });
  return {
    series,
    ofLife,
    ofClutch: [{ ...reference, points }, ...commands.map(since)],
    fall: fallsAt === undefined ? null : tellFall(ofLife, fallsAt),
  };
}

function tellFall(points: readonly SeriesPoint[], index: number): Fall {
  const mean = (part: readonly SeriesPoint[]) =>
    part.reduce((sum, point) => sum + point.slipRpm, 0) / part.length;
  return {
    fromRpm: mean(points.slice(Math.max(0, index - SIDE), index)),
    toRpm: mean(points.slice(index, index + SIDE)),
    atKm: points[index]?.km ?? 0,
    atMs: points[index]?.atMs ?? 0,
  };
}
