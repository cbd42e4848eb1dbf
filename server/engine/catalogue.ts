import { runCusum } from './charts/run-cusum.ts';
import { runEwma } from './charts/run-ewma.ts';
import { chiSquareCdf } from './distributions/chi-square-cdf.ts';
import { chiSquareTail } from './distributions/chi-square-tail.ts';
import { fCdf } from './distributions/f-cdf.ts';
import { fTail } from './distributions/f-tail.ts';
import { inverseGaussianCdf } from './distributions/inverse-gaussian-cdf.ts';
import { inverseGaussianTail } from './distributions/inverse-gaussian-tail.ts';
import { logNormalCdf } from './distributions/log-normal-cdf.ts';
import { normalCdf } from './distributions/normal-cdf.ts';
import { normalQuantile } from './distributions/normal-quantile.ts';
import { tCdf } from './distributions/t-cdf.ts';
import { tQuantile } from './distributions/t-quantile.ts';
import { adjustPValues } from './multiplicity/adjust-p-values.ts';
import { combinePValues } from './multiplicity/combine-p-values.ts';
import { chanceOfPassage } from './passage/chance-of-passage.ts';
import { describePassage } from './passage/describe-passage.ts';
import { extrapolateToLimit } from './passage/extrapolate-to-limit.ts';
import { fitWienerDrift } from './passage/fit-wiener-drift.ts';
import { quantileOfPassage } from './passage/quantile-of-passage.ts';
import { estimateHodgesLehmann } from './robust/estimate-hodges-lehmann.ts';
import { estimateHuberLocation } from './robust/estimate-huber-location.ts';
import { estimateHuberLocationAndScale } from './robust/estimate-huber-location-and-scale.ts';
import { fitRobustRegression } from './robust/fit-robust-regression.ts';
import { measureWeightedMad } from './robust/measure-weighted-mad.ts';
import { measureWeightedMedian } from './robust/measure-weighted-median.ts';
import { fitFlatThenRising } from './trend/fit-flat-then-rising.ts';
import { fitHinge } from './trend/fit-hinge.ts';
import { fitLevelShift } from './trend/fit-level-shift.ts';
import { fitOls } from './trend/fit-ols.ts';
import { fitPolynomial } from './trend/fit-polynomial.ts';
import { fitTheilSen } from './trend/fit-theil-sen.ts';
import { fitThroughOrigin } from './trend/fit-through-origin.ts';
import { measureAutocorrelation } from './trend/measure-autocorrelation.ts';
import { measureEffectiveShare } from './trend/measure-effective-share.ts';
import { measureKendall } from './trend/measure-kendall.ts';
import { tellShiftFromDrift } from './trend/tell-shift-from-drift.ts';
import { testHamedRao } from './trend/test-hamed-rao.ts';
import { testMannKendall } from './trend/test-mann-kendall.ts';

/** The engine's statistics by subject, each in the file named after it: the one place that lists them. */
export const catalogue = {
  distributions: {
    chiSquareCdf,
    chiSquareTail,
    fCdf,
    fTail,
    inverseGaussianCdf,
    inverseGaussianTail,
    logNormalCdf,
    normalCdf,
    normalQuantile,
    tCdf,
    tQuantile,
  },
  trend: {
    fitFlatThenRising,
    fitHinge,
    fitLevelShift,
    fitOls,
    fitPolynomial,
    fitTheilSen,
    fitThroughOrigin,
    measureAutocorrelation,
    measureEffectiveShare,
    measureKendall,
    tellShiftFromDrift,
    testHamedRao,
    testMannKendall,
  },
  robust: {
    estimateHodgesLehmann,
    estimateHuberLocation,
    estimateHuberLocationAndScale,
    fitRobustRegression,
    measureWeightedMad,
    measureWeightedMedian,
  },
  charts: { runCusum, runEwma },
  multiplicity: { adjustPValues, combinePValues },
  passage: { chanceOfPassage, describePassage, extrapolateToLimit, fitWienerDrift, quantileOfPassage },
} as const;
