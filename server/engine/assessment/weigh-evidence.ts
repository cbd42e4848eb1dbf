import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { combinePValues } from '#server/engine/multiplicity/combine-p-values.ts';
import type { BandContext } from '#server/engine/platform/platform-context.ts';
import { testForRise } from '#server/engine/trend/test-for-rise.ts';
import type { Series } from './build-series.ts';

export interface Evidence {
  /** p of no rise in any band and no unusual level */
  p: number;
  /** true where the level alone, against the platform's healthy vehicles, tells */
  levelSpeaks: boolean;
}

/** Points below which a band says nothing of a rise. */
const LEAST_POINTS = 8;
/** A level as high as this in one healthy vehicle out of a thousand speaks for itself. */
const LEVEL_P = 0.001;

/**
 * Evidence for a rise of slip, pooled over the reference point and the command bands.
 *
 * p of each band: flat against flat-then-rising with unknown onset ({@link testForRise}), its statistic
 * reduced by the share of independent information; p of the level: 1 - Phi((level - usual) / sqrt(spread^2 +
 * sd^2)). Pooled by the Cauchy combination, which the band that speaks loudest carries.
 *
 * @param series       of one life, the one at the reference point first
 * @param independence share of independent information, 0 to 1
 * @param contextOf    what the platform has in common, by band
 * @param level        slip now at the reference point, mean and standard deviation, rpm
 * @returns pooled p
 * Source: those of the parts. Edges: bands with fewer than 8 points take no part. Errors: none.
 * @example weighEvidence([], 1, unknownBand, { mean: 15, sd: 1 }).levelSpeaks // false
 */
export function weighEvidence(
  series: readonly Series[],
  independence: number,
  contextOf: (band: number) => BandContext,
  level: { mean: number; sd: number },
): Evidence {
  const bands = series.flatMap(({ points }) => {
    if (points.length < LEAST_POINTS) return [];
    const p = testForRise({
      x: points.map((point) => point.km),
      y: points.map((point) => point.slipRpm),
      weight: points.map((point) => independence / point.seRpm ** 2),
      scale: 'larger',
    });
    return p === null ? [] : [p];
  });
  const usual = contextOf(series[0]?.band ?? -1);
  const z = (level.mean - usual.baselineRpm) / Math.hypot(usual.baselineSd, level.sd);
  const levelP = normalCdf(-z, 0, 1);
  return { p: combinePValues([...bands, levelP]), levelSpeaks: levelP < LEVEL_P };
}
