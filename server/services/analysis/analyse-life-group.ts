import type { LivesGroup, LognormalFit, WeibullFit } from '#server/contract/lives.ts';
import { type Declined, isDeclined } from '#server/engine/declined.ts';
import { countUnderWatch } from '#server/engine/life/count-under-watch.ts';
import { estimateIncidence, MODE_NOT_RECORDED } from '#server/engine/life/estimate-incidence.ts';
import { estimateKaplanMeier, type SurvivalPoint } from '#server/engine/life/estimate-kaplan-meier.ts';
import { estimateNelsonAalen } from '#server/engine/life/estimate-nelson-aalen.ts';
import { findMedianLife } from '#server/engine/life/find-median-life.ts';
import { fitLogNormal } from '#server/engine/life/fit-log-normal.ts';
import { fitWeibull } from '#server/engine/life/fit-weibull.ts';
import type { ObservedLife } from '#server/engine/life/life-model.ts';
import { tabulateLives } from '#server/engine/life/tabulate-lives.ts';

/** Steps and marks for charts: more cannot be told apart. */
const MOST_STEPS = 400;

/** Every statistic of one group of lives; what one of them cannot be had of is null, with its reason. */
export function analyseGroup(name: string, lives: readonly ObservedLife[], confidence: number): LivesGroup {
  const watched = countUnderWatch(lives, MOST_STEPS);
  const table = tabulateLives(lives);
  const points = estimateKaplanMeier(lives, confidence, table);
  const group: LivesGroup = {
    name,
    ...countUp(lives),
    at_risk: watched.steps,
    running_at: watched.runningAt,
    kaplan_meier: points.map(({ x, atRisk, events, censored, survival, se, low, high }) => {
      return { x, events, censored, survival, se, low, high, at_risk: atRisk };
    }),
    nelson_aalen: estimateNelsonAalen(lives, table).map(({ x, cumulativeHazard, se }) => ({
      x,
      cumulative_hazard: cumulativeHazard,
      se,
    })),
    median: findMedianLife(points),
    weibull: null,
    lognormal: null,
    weibull_by_mode: [],
    cumulative_incidence: [],
    notes: sayEarlyEnd(lives, points),
    declined: {},
  };
  const weibull = describeWeibull(lives, confidence);
  if (isDeclined(weibull)) group.declined.weibull = weibull.declined;
  else group.weibull = weibull;
  const lognormal = describeLogNormal(lives, confidence);
  if (isDeclined(lognormal)) group.declined.lognormal = lognormal.declined;
  else group.lognormal = lognormal;
  const incidence = estimateIncidence(lives, table);
  if (isDeclined(incidence)) group.declined.cumulative_incidence = incidence.declined;
  else {
    group.cumulative_incidence = incidence;
    if (incidence.length > 1)
      group.weibull_by_mode = incidence.map(({ mode, events }) => ({
        mode,
        events,
        ...fitMode(lives, mode, confidence),
      }));
  }
  return group;
}

function countUp(lives: readonly ObservedLife[]) {
  const sums = { n: 0, events: 0, late_entries: 0, exposed: 0 };
  for (const { entry, exit, event, count } of lives) {
    sums.n += count;
    if (event) sums.events += count;
    if (entry > 0) sums.late_entries += count;
    sums.exposed += count * (exit - entry);
  }
  return sums;
}

/** Few are at risk early where lives enter late: one failure of all of them takes the estimate to 0 for good. */
function sayEarlyEnd(lives: readonly ObservedLife[], points: readonly SurvivalPoint[]): string[] {
  const end = points.find(({ survival }) => survival <= 0);
  if (end === undefined) return [];
  let beyond = 0;
  for (const { exit, count } of lives) if (exit > end.x) beyond += count;
  if (beyond === 0) return [];
  return [
    `Survival falls to 0 at ${end.x}, where all ${end.atRisk} at risk failed, and stays there, though ${beyond} entered later and ran beyond it. Raise the entry of all lives to a mileage at which more are at risk, to see survival from there on.`,
  ];
}

function describeWeibull(lives: readonly ObservedLife[], confidence: number): WeibullFit | Declined {
  const fit = fitWeibull(lives, confidence);
  if (isDeclined(fit)) return fit;
  return {
    shape: fit.shape,
    scale: fit.scale,
    se_shape: fit.seShape,
    se_scale: fit.seScale,
    se_log_scale: fit.seLogScale,
    cov_log_scale_log_shape: fit.covLogs,
    loglik: fit.loglik,
    shape_low: fit.shapeLow,
    shape_high: fit.shapeHigh,
    scale_low: fit.scaleLow,
    scale_high: fit.scaleHigh,
    b10: fit.b10,
    b50: fit.b50,
  };
}

function describeLogNormal(lives: readonly ObservedLife[], confidence: number): LognormalFit | Declined {
  const fit = fitLogNormal(lives, confidence);
  if (isDeclined(fit)) return fit;
  return {
    mu: fit.mu,
    sigma: fit.sigma,
    se_mu: fit.seMu,
    se_sigma: fit.seSigma,
    loglik: fit.loglik,
    sigma_low: fit.sigmaLow,
    sigma_high: fit.sigmaHigh,
    b10: fit.b10,
    b50: fit.b50,
  };
}

/** Failures in other modes are taken as running on. */
function fitMode(lives: readonly ObservedLife[], mode: string, confidence: number) {
  const own = lives.map((life) =>
    life.event && (life.mode ?? MODE_NOT_RECORDED) !== mode ? { ...life, event: false } : life,
  );
  const fit = describeWeibull(own, confidence);
  return isDeclined(fit) ? { weibull: null, declined: fit.declined } : { weibull: fit, declined: null };
}
