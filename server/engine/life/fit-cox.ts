import { inverse } from 'ml-matrix';
import { type Declined, decline, isDeclined } from '#server/engine/declined.ts';
import { chiSquareTail } from '#server/engine/distributions/chi-square-tail.ts';
import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { climbLikelihood, type Summit } from './climb-likelihood.ts';
import { findDependence } from './find-dependence.ts';
import { isSeparated } from './is-separated.ts';
import type { ObservedLife } from './life-model.ts';
import { normalWidth } from './normal-width.ts';
import {
  arrangeRiskSets,
  evaluatePartialLikelihood,
  type RiskSets,
  scoreLives,
} from './partial-likelihood.ts';
import { requireLives } from './require-lives.ts';
import { type Standardised, standardiseCovariates } from './standardise-covariates.ts';

export interface CoxLife extends ObservedLife {
  /** one number a covariate, in the order of their names */
  covariates: readonly number[];
}

export interface CoxTerm {
  name: string;
  coef: number;
  se: number;
  z: number;
  p: number;
  /** for one more of the unit of the covariate, and its bounds */
  hazardRatio: number;
  low: number;
  high: number;
  /** of the covariate, between the lives */
  mean: number;
  sd: number;
}

export interface CoxFit {
  terms: CoxTerm[];
  loglik: number;
  loglikNull: number;
  lrChisq: number;
  /** of the likelihood ratio against no covariate at all */
  p: number;
  n: number;
  events: number;
}

const MOST_STEPS = 60;
/** Log hazards of lives further apart than this are looked at for a likelihood that rises for ever. */
const SUSPICIOUS = 12;

/**
 * Cox's proportional hazards regression, with Efron's ties and late entry.
 *
 * hazard = h0(x) exp(b . covariates), h0 left open; b maximises the partial likelihood (see evaluatePartialLikelihood) by
 * Newton's method with step halving; se from the observed information; z = b / se, p two-sided; hazard ratio exp(b) with
 * Wald bounds; likelihood ratio against b = 0 as chi-square with as many degrees of freedom as covariates.
 *
 * @param lives      in any order; counts whole: a life with a count is so many tied lives
 * @param names      of the covariates
 * @param confidence of the bounds, above 0, below 1
 * @returns a term a covariate, or declined: no covariates, no more failures than covariates, a covariate that is the same throughout,
 * does not differ among lives at risk together, or is a combination of others, and covariates that put all failures apart, where the
 * likelihood rises for ever (monotone likelihood)
 * Source: Cox (1972), J. R. Statist. Soc. B 34, 187-220; Efron (1977); Therneau and Grambsch (2000), Modeling Survival Data,
 * chapter 3; Heinze and Schemper (2001), Biometrics 57, 114-119, on monotone likelihood (from memory).
 * Variant: at risk entry < x <= exit. Covariates are standardised inside, coefficients told in their units.
 * Edges: ten failures a covariate are common practice for intervals to be trusted; fewer are answered.
 * Errors: as {@link requireLives}; throws on counts that are not whole, covariates that are no numbers or not one a name.
 * @example fitCox([9, 1, 1, 6, 6, 8].map((exit, i) => ({ entry: 0, exit, event: i !== 2 && i !== 5, count: 1, covariates: [[0, 1, 1, 1, 0, 0][i] ?? 0] })), ['x'], 0.95) // coef 1.676857, se 1.277616
 */
export function fitCox(
  lives: readonly CoxLife[],
  names: readonly string[],
  confidence: number,
): CoxFit | Declined {
  const { n, events } = requireLives('fitCox', lives);
  for (const { count, covariates } of lives) {
    if (!Number.isInteger(count)) throw new Error('fitCox requires whole counts');
    if (covariates.length !== names.length || !covariates.every(Number.isFinite))
      throw new Error('fitCox requires a finite number for each covariate of each life');
  }
  const p = names.length;
  if (p === 0) return decline('no covariates', 'at least 1 covariate', '0');
  if (events <= p)
    return decline(
      'too few failures',
      `at least ${p + 1} failures for ${p} ${p === 1 ? 'covariate' : 'covariates'}`,
      `${events}`,
    );
  const standard = standardiseCovariates(lives, names);
  if (isDeclined(standard)) return standard;
  const sets = arrangeRiskSets(lives, standard.values);
  const nothing = evaluatePartialLikelihood(sets, new Array<number>(p).fill(0));
  const dependence = findDependence(nothing.information, events);
  if (dependence !== null) return sayDependence(dependence, names);
  const summit = climbLikelihood(
    new Array<number>(p).fill(0),
    // It sets out from there.
    (beta) => (beta.every((one) => one === 0) ? nothing : evaluatePartialLikelihood(sets, beta)),
    MOST_STEPS,
  );
  const apart = findSeparation(sets, summit, names);
  if (apart !== null) return apart;
  if (!summit.hasSettled)
    return decline('the fit found no maximum', 'fewer covariates, or more failures', `${events} failures`);
  return describeFit({ standard, summit, names, confidence, loglikNull: nothing.value, n, events });
}

function sayDependence({ index, of }: { index: number; of: number[] }, names: readonly string[]): Declined {
  const name = names[index] ?? '';
  if (of.length === 0)
    return decline(
      `"${name}" does not differ among lives that were at risk together`,
      'a covariate that does, or leave it out',
      'the same value at each failure',
    );
  const others = of.map((i) => `"${names[i] ?? ''}"`).join(', ');
  return decline(
    `"${name}" is a combination of ${others}`,
    'covariates of which none follows from the others: leave one out',
    `"${name}" without anything of its own`,
  );
}

function findSeparation(sets: RiskSets, summit: Summit, names: readonly string[]): Declined | null {
  const rangeOf = (score: Float64Array) => {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const one of score) [least, most] = [Math.min(least, one), Math.max(most, one)];
    return most - least;
  };
  if (summit.hasSettled && rangeOf(scoreLives(sets, summit.at)) < SUSPICIOUS) return null;
  const separates = (weights: readonly number[], tolerance: number) => {
    const score = scoreLives(sets, weights);
    return isSeparated(sets, score, tolerance * rangeOf(score));
  };
  const alone = names.flatMap((name, k) =>
    [-1, 1].some((side) =>
      separates(
        names.map((_, i) => (i === k ? side : 0)),
        0,
      ),
    )
      ? [name]
      : [],
  );
  // The way in which it still rises has the other covariates in it but for what the last steps left over.
  const together = [summit.step, summit.at].find((way) => separates(way, 1e-4));
  if (alone.length === 0 && together === undefined) return null;
  const most = Math.max(...(together ?? []).map(Math.abs));
  const said = alone.length > 0 ? alone : names.filter((_, k) => Math.abs(together?.[k] ?? 0) > 0.01 * most);
  return decline(
    `${said.map((name) => `"${name}"`).join(' with ')} puts all failures apart from the lives that ran on: the hazard ratio has no bound`,
    'failures on both sides, or leave it out',
    'a likelihood that rises for ever',
  );
}

interface Fitted {
  standard: Standardised;
  summit: Summit;
  names: readonly string[];
  confidence: number;
  loglikNull: number;
  n: number;
  events: number;
}

function describeFit(fitted: Fitted): CoxFit | Declined {
  const { standard, summit, names, confidence, loglikNull, n, events } = fitted;
  const covariance = inverse(summit.information);
  const width = normalWidth(confidence);
  const terms = names.map((name, k) => {
    const { mean = 0, sd = 1 } = standard.columns[k] ?? {};
    const coef = (summit.at[k] ?? 0) / sd;
    const se = Math.sqrt(covariance.get(k, k)) / sd;
    const z = coef / se;
    return {
      name,
      coef,
      se,
      z,
      p: 2 * normalCdf(-Math.abs(z)),
      hazardRatio: Math.exp(coef),
      low: Math.exp(coef - width * se),
      high: Math.exp(coef + width * se),
      mean,
      sd,
    };
  });
  for (const term of terms)
    if (!Object.values(term).every((one) => typeof one === 'string' || Number.isFinite(one)))
      return decline(
        `one more unit of "${term.name}" changes the hazard beyond all numbers`,
        `"${term.name}" in a smaller unit`,
        `a standard deviation of ${term.sd.toPrecision(3)}`,
      );
  const lrChisq = Math.max(0, 2 * (summit.value - loglikNull));
  return {
    terms,
    loglik: summit.value,
    loglikNull,
    lrChisq,
    p: chiSquareTail(lrChisq, names.length),
    n,
    events,
  };
}
