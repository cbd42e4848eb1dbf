import { assessVehicle } from './assessment/assess-vehicle.ts';
import { buildBandSeries } from './assessment/build-band-series.ts';
import { buildSeries } from './assessment/build-series.ts';
import { compareBands } from './assessment/compare-bands.ts';
import { drawFan } from './assessment/draw-fan.ts';
import { drawFit } from './assessment/draw-fit.ts';
import { findFallBack } from './assessment/find-fall-back.ts';
import { fitClutch } from './assessment/fit-clutch.ts';
import { giveReasons } from './assessment/give-reasons.ts';
import { gradeVehicle } from './assessment/grade-vehicle.ts';
import { judgeRepair } from './assessment/judge-repair.ts';
import { judgeRise } from './assessment/judge-rise.ts';
import { listFallsBack } from './assessment/list-falls-back.ts';
import { listMissing } from './assessment/list-missing.ts';
import { meanPath } from './assessment/mean-path.ts';
import { measurePace } from './assessment/measure-pace.ts';
import { measureRises } from './assessment/measure-rises.ts';
import { preparePoints } from './assessment/prepare-points.ts';
import { summariseCases } from './assessment/summarise-cases.ts';
import { tellClutch } from './assessment/tell-clutch.ts';
import { tellPattern } from './assessment/tell-pattern.ts';
import { traceClutch } from './assessment/trace-clutch.ts';
import { weighChances } from './assessment/weigh-chances.ts';
import { weighEvidence } from './assessment/weigh-evidence.ts';
import { estimateBaseline } from './charts/estimate-baseline.ts';
import { runCusum } from './charts/run-cusum.ts';
import { runEwma } from './charts/run-ewma.ts';
import { correctToReference } from './conditions/correct-to-reference.ts';
import { fitConditionEffects } from './conditions/fit-condition-effects.ts';
import { measureSpreadLeft } from './conditions/measure-spread-left.ts';
import { askAboutCurrent } from './diagnosis/ask-about-current.ts';
import { costOfCutting } from './diagnosis/cost-of-cutting.ts';
import { expectedCurrent } from './diagnosis/expected-current.ts';
import { healthyByDuty } from './diagnosis/healthy-by-duty.ts';
import { isCoolerDue } from './diagnosis/is-cooler-due.ts';
import { judgeCooler } from './diagnosis/judge-cooler.ts';
import { judgeCoolerRecord } from './diagnosis/judge-cooler-record.ts';
import { judgeFluid } from './diagnosis/judge-fluid.ts';
import { judgePan } from './diagnosis/judge-pan.ts';
import { judgePressure } from './diagnosis/judge-pressure.ts';
import { judgeSolenoidCurrent } from './diagnosis/judge-solenoid-current.ts';
import { judgeTypedRoadTest } from './diagnosis/judge-typed-road-test.ts';
import { walkTree } from './diagnosis/walk-tree.ts';
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
import { gateReading } from './gate/gate-reading.ts';
import { joinOdometer } from './gate/join-odometer.ts';
import { decodeCodes } from './j1939/decode-codes.ts';
import { decodeVin } from './j1939/decode-vin.ts';
import { endSessions } from './j1939/end-sessions.ts';
import { judgeRaw } from './j1939/judge-raw.ts';
import { readRaw } from './j1939/read-raw.ts';
import { scaleRaw } from './j1939/scale-raw.ts';
import { splitIdentifier } from './j1939/split-identifier.ts';
import { takeTransportFrame } from './j1939/take-transport-frame.ts';
import { compareWithinWeeks } from './life/compare-within-weeks.ts';
import { countUnderWatch } from './life/count-under-watch.ts';
import { estimateIncidence } from './life/estimate-incidence.ts';
import { estimateKaplanMeier } from './life/estimate-kaplan-meier.ts';
import { estimateNelsonAalen } from './life/estimate-nelson-aalen.ts';
import { expectLife } from './life/expect-life.ts';
import { findMedianLife } from './life/find-median-life.ts';
import { fitCox } from './life/fit-cox.ts';
import { fitLogNormal } from './life/fit-log-normal.ts';
import { fitPlatformLife } from './life/fit-platform-life.ts';
import { fitSharedShape } from './life/fit-shared-shape.ts';
import { fitWeibull } from './life/fit-weibull.ts';
import { fitWeibullScale } from './life/fit-weibull-scale.ts';
import { quantileOfWeibull } from './life/quantile-of-weibull.ts';
import { tabulateLives } from './life/tabulate-lives.ts';
import { testLogRank } from './life/test-log-rank.ts';
import { adjustPValues } from './multiplicity/adjust-p-values.ts';
import { combinePValues } from './multiplicity/combine-p-values.ts';
import { chanceOfPassage } from './passage/chance-of-passage.ts';
import { describePassage } from './passage/describe-passage.ts';
import { extrapolateToLimit } from './passage/extrapolate-to-limit.ts';
import { fitWienerDrift } from './passage/fit-wiener-drift.ts';
import { quantileOfPassage } from './passage/quantile-of-passage.ts';
import { chanceOnRoad } from './planning/chance-on-road.ts';
import { listPackings } from './planning/list-packings.ts';
import { planDepot } from './planning/plan-depot.ts';
import { solveByPrice } from './planning/solve-by-price.ts';
import { valueExtraBay } from './planning/value-extra-bay.ts';
import { valueInspection } from './planning/value-inspection.ts';
import { estimateCommonMovement } from './platform/estimate-common-movement.ts';
import { findBandContext } from './platform/find-band-context.ts';
import { findFleetEvents } from './platform/find-fleet-events.ts';
import { learnPlatform } from './platform/learn-platform.ts';
import { takeEvenly } from './platform/take-evenly.ts';
import { unknownBand } from './platform/unknown-band.ts';
import { usualCondition } from './platform/usual-condition.ts';
import { weekOf } from './platform/week-of.ts';
import { weekStartMs } from './platform/week-start-ms.ts';
import { compareForRank } from './ranking/compare-for-rank.ts';
import { expectAvoidedCost } from './ranking/expect-avoided-cost.ts';
import { rankVehicles } from './ranking/rank-vehicles.ts';
import { staysCalm } from './ranking/stays-calm.ts';
import { weighAgainst } from './ranking/weigh-against.ts';
import { checkCalibration } from './replay/check-calibration.ts';
import { findAskings } from './replay/find-askings.ts';
import { findLimitReached } from './replay/find-limit-reached.ts';
import { firstWarning } from './replay/first-warning.ts';
import { judgeAsking } from './replay/judge-asking.ts';
import { matchThreshold } from './replay/match-threshold.ts';
import { measureRise } from './replay/measure-rise.ts';
import { fallsAway } from './road-trace/falls-away.ts';
import { findSteady } from './road-trace/find-steady.ts';
import { healthyAt } from './road-trace/healthy-at.ts';
import { judgeSteady } from './road-trace/judge-steady.ts';
import { measureSteady } from './road-trace/measure-steady.ts';
import { splitWindows } from './road-trace/split-windows.ts';
import { summariseWindow } from './road-trace/summarise-window.ts';
import { thinTrace } from './road-trace/thin-trace.ts';
import { estimateHodgesLehmann } from './robust/estimate-hodges-lehmann.ts';
import { estimateHuberLocation } from './robust/estimate-huber-location.ts';
import { estimateHuberLocationAndScale } from './robust/estimate-huber-location-and-scale.ts';
import { fitRobustRegression } from './robust/fit-robust-regression.ts';
import { measureMedian } from './robust/measure-median.ts';
import { measureWeightedMad } from './robust/measure-weighted-mad.ts';
import { measureWeightedMedian } from './robust/measure-weighted-median.ts';
import { middleOfSorted } from './robust/middle-of-sorted.ts';
import { poolByPrecision } from './robust/pool-by-precision.ts';
import { orderByValue } from './smooth/order-by-value.ts';
import { runningMedian } from './smooth/running-median.ts';
import { weightedQuantiles } from './smooth/weighted-quantiles.ts';
import { alignSignals } from './stretches/align-signals.ts';
import { bandOf } from './stretches/band-of.ts';
import { binOf } from './stretches/bin-of.ts';
import { buildStretches } from './stretches/build-stretches.ts';
import { clutchHeatKw } from './stretches/clutch-heat-kw.ts';
import { growStretches } from './stretches/grow-stretches.ts';
import { summariseStretch } from './stretches/summarise-stretch.ts';
import { weighReading } from './stretches/weigh-reading.ts';
import { chanceOfKendall } from './trend/chance-of-kendall.ts';
import { fitFlatThenRising } from './trend/fit-flat-then-rising.ts';
import { fitHinge } from './trend/fit-hinge.ts';
import { fitLevelShift } from './trend/fit-level-shift.ts';
import { fitOls } from './trend/fit-ols.ts';
import { fitPolynomial } from './trend/fit-polynomial.ts';
import { fitTheilSen } from './trend/fit-theil-sen.ts';
import { fitThroughOrigin } from './trend/fit-through-origin.ts';
import { measureAutocorrelation } from './trend/measure-autocorrelation.ts';
import { measureAutocorrelations } from './trend/measure-autocorrelations.ts';
import { measureEffectiveShare } from './trend/measure-effective-share.ts';
import { measureKendall } from './trend/measure-kendall.ts';
import { selectSlopes } from './trend/select-slopes.ts';
import { tellShiftFromDrift } from './trend/tell-shift-from-drift.ts';
import { testForRise } from './trend/test-for-rise.ts';
import { testHamedRao } from './trend/test-hamed-rao.ts';
import { testMannKendall } from './trend/test-mann-kendall.ts';
import { boundDriftRows } from './wear/bound-drift-rows.ts';
import { chanceOfSuddenFailure } from './wear/chance-of-sudden-failure.ts';
import { chanceWithin } from './wear/chance-within.ts';
import { estimateDriftSums } from './wear/estimate-drift-sums.ts';
import { fitWear } from './wear/fit-wear.ts';
import { layDriftGrid } from './wear/lay-drift-grid.ts';
import { learnWear } from './wear/learn-wear.ts';
import { measureClimb } from './wear/measure-climb.ts';
import { measureRaggedness } from './wear/measure-raggedness.ts';
import { measureYouth } from './wear/measure-youth.ts';
import { predictPassage } from './wear/predict-passage.ts';
import { predictSlip } from './wear/predict-slip.ts';
import { predictSlips } from './wear/predict-slips.ts';
import { predictStray } from './wear/predict-stray.ts';
import { reachShare } from './wear/reach-share.ts';
import { recalibrateChance } from './wear/recalibrate-chance.ts';
import { settleCases } from './wear/settle-cases.ts';
import { shareRisen } from './wear/share-risen.ts';
import { slipAhead } from './wear/slip-ahead.ts';
import { slipAt } from './wear/slip-at.ts';
import { steadyRaggedness } from './wear/steady-raggedness.ts';
import { sumWearPoints } from './wear/sum-wear-points.ts';
import { thinOutlooks } from './wear/thin-outlooks.ts';
import { tryDrifts } from './wear/try-drifts.ts';
import { trySteps } from './wear/try-steps.ts';
import { wayLeft } from './wear/way-left.ts';

/** The engine's functions by subject, each in the file named after it: the one place that lists them. */
export const catalogue = {
  gate: { gateReading, joinOdometer },
  stretches: {
    bandOf,
    binOf,
    buildStretches,
    growStretches,
    clutchHeatKw,
    alignSignals,
    summariseStretch,
    weighReading,
  },
  conditions: { correctToReference, fitConditionEffects, measureSpreadLeft },
  platform: {
    estimateCommonMovement,
    findBandContext,
    findFleetEvents,
    learnPlatform,
    takeEvenly,
    unknownBand,
    usualCondition,
    weekOf,
    weekStartMs,
  },
  assessment: {
    assessVehicle,
    buildBandSeries,
    buildSeries,
    compareBands,
    drawFan,
    drawFit,
    findFallBack,
    fitClutch,
    listFallsBack,
    listMissing,
    giveReasons,
    judgeRepair,
    judgeRise,
    gradeVehicle,
    meanPath,
    measurePace,
    measureRises,
    preparePoints,
    summariseCases,
    tellClutch,
    tellPattern,
    traceClutch,
    weighChances,
    weighEvidence,
  },
  life: {
    compareWithinWeeks,
    countUnderWatch,
    estimateIncidence,
    estimateKaplanMeier,
    estimateNelsonAalen,
    expectLife,
    findMedianLife,
    fitCox,
    fitLogNormal,
    fitPlatformLife,
    fitSharedShape,
    fitWeibull,
    fitWeibullScale,
    quantileOfWeibull,
    tabulateLives,
    testLogRank,
  },
  wear: {
    boundDriftRows,
    chanceOfSuddenFailure,
    chanceWithin,
    estimateDriftSums,
    fitWear,
    layDriftGrid,
    learnWear,
    measureClimb,
    measureRaggedness,
    measureYouth,
    predictPassage,
    predictSlip,
    predictSlips,
    predictStray,
    reachShare,
    recalibrateChance,
    settleCases,
    shareRisen,
    slipAhead,
    slipAt,
    steadyRaggedness,
    sumWearPoints,
    thinOutlooks,
    tryDrifts,
    trySteps,
    wayLeft,
  },
  diagnosis: {
    askAboutCurrent,
    costOfCutting,
    expectedCurrent,
    healthyByDuty,
    isCoolerDue,
    judgeCooler,
    judgeCoolerRecord,
    judgeFluid,
    judgePan,
    judgePressure,
    judgeSolenoidCurrent,
    judgeTypedRoadTest,
    walkTree,
  },
  'road-trace': {
    fallsAway,
    findSteady,
    healthyAt,
    judgeSteady,
    measureSteady,
    splitWindows,
    summariseWindow,
    thinTrace,
  },
  j1939: {
    decodeCodes,
    decodeVin,
    endSessions,
    judgeRaw,
    readRaw,
    scaleRaw,
    splitIdentifier,
    takeTransportFrame,
  },
  planning: { chanceOnRoad, listPackings, planDepot, solveByPrice, valueExtraBay, valueInspection },
  ranking: { compareForRank, expectAvoidedCost, rankVehicles, staysCalm, weighAgainst },
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
    chanceOfKendall,
    fitFlatThenRising,
    fitHinge,
    fitLevelShift,
    fitOls,
    fitPolynomial,
    fitTheilSen,
    fitThroughOrigin,
    measureAutocorrelation,
    measureAutocorrelations,
    measureEffectiveShare,
    measureKendall,
    selectSlopes,
    tellShiftFromDrift,
    testForRise,
    testHamedRao,
    testMannKendall,
  },
  robust: {
    estimateHodgesLehmann,
    estimateHuberLocation,
    estimateHuberLocationAndScale,
    fitRobustRegression,
    measureMedian,
    measureWeightedMad,
    measureWeightedMedian,
    middleOfSorted,
    poolByPrecision,
  },
  replay: {
    checkCalibration,
    findAskings,
    findLimitReached,
    firstWarning,
    judgeAsking,
    matchThreshold,
    measureRise,
  },
  charts: { estimateBaseline, runCusum, runEwma },
  multiplicity: { adjustPValues, combinePValues },
  passage: { chanceOfPassage, describePassage, extrapolateToLimit, fitWienerDrift, quantileOfPassage },
  smooth: { orderByValue, runningMedian, weightedQuantiles },
} as const;
