import { findBandContext } from '#server/engine/platform/find-band-context.ts';
import type { PlatformContext } from '#server/engine/platform/platform-context.ts';
import type { Interval } from './assessment-model.ts';
import type { Series } from './build-series.ts';
import type { ClutchFit } from './fit-clutch.ts';
import { LEAST_STRETCHES } from './list-missing.ts';
import { weighEvidence } from './weigh-evidence.ts';

/** Whether slip of one clutch has risen. */
export interface RiseJudgement {
  risen: boolean;
  /** p of no rise; null where too little was seen to say one */
  p: number | null;
  /** null where nothing has risen */
  onset: Interval | null;
  /** true where wear had begun before the first point */
  arrivedSlipping: boolean;
}

/** Evidence from which a rise is told. */
const RISEN_P = 0.05;
/** Probability of a drift or a jump from which one is told. */
const MOVING = 0.5;

/**
 * Whether slip of one clutch has risen: pooled evidence ({@link weighEvidence}) of p below 0.05, and a posterior of more than
 * 0.5 for a drift or a jump.
 *
 * @param series  of the clutch alone, the one at the reference point first, in order of km
 * @param fit     its wear
 * @param context learned from its platform
 * @returns judgement
 * Source: own composition; the parts have theirs. Edges: with fewer than 6 points p is said only where the level alone tells.
 * Errors: none.
 * @example judgeRise([flatSeries], flatFit, unknownPlatform).risen // false
 */
export function judgeRise(
  series: readonly Series[],
  { summary, independence }: Pick<ClutchFit, 'summary' | 'independence'>,
  context: Pick<PlatformContext, 'bands'>,
): RiseJudgement {
  const points = series[0]?.points ?? [];
  const { p, levelSpeaks } = weighEvidence(
    series,
    independence,
    (band) => findBandContext(context, band),
    summary.level,
  );
  const moves = summary.drifting + summary.stepping > MOVING;
  const risen = p < RISEN_P && moves;
  const beganKm = summary.onset?.estimate ?? Number.POSITIVE_INFINITY;
  return {
    risen,
    p: points.length >= LEAST_STRETCHES || levelSpeaks ? p : null,
    onset: risen ? summary.onset : null,
    arrivedSlipping: moves && levelSpeaks && beganKm <= (points[0]?.km ?? 0),
  };
}
