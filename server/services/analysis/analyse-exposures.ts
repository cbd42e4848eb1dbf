import type { AnalysedLife, LivesReply } from '#server/contract/lives.ts';
import { type Declined, decline, isDeclined } from '#server/engine/declined.ts';
import { type CoxLife, fitCox } from '#server/engine/life/fit-cox.ts';

type Cox = NonNullable<LivesReply['cox']>;

/** Cox regression on the covariates of the lives: on those lives that have all of them. Sentences name them in `words`. */
export function analyseExposures(
  lives: readonly AnalysedLife[],
  confidence: number,
  words: Readonly<Record<string, string>> = {},
): { cox: Cox | Declined; notes: string[] } {
  const names = listNames(lives);
  const { complete, left, lacking } = takeComplete(lives, names);
  const notes = left > 0 && complete.length > 0 ? [sayLeft(left, lacking, words)] : [];
  if (names.length > 0 && complete.length === 0)
    return {
      cox: decline('no life has all covariates', 'lives with a number for each', sayLacking(lacking, words)),
      notes,
    };
  const fit = fitCox(complete, names, confidence);
  if (isDeclined(fit)) return { cox: fit, notes };
  return {
    cox: {
      terms: fit.terms.map(({ hazardRatio, ...term }) => ({ ...term, hazard_ratio: hazardRatio })),
      loglik: fit.loglik,
      loglik_null: fit.loglikNull,
      lr_chisq: fit.lrChisq,
      p: fit.p,
      n: fit.n,
      events: fit.events,
    },
    notes,
  };
}

/** In the order in which they are first named. */
export function listNames(lives: readonly Pick<AnalysedLife, 'covariates'>[]): string[] {
  const names = new Set<string>();
  for (const { covariates } of lives) for (const name in covariates) names.add(name);
  return [...names];
}

function takeComplete(lives: readonly AnalysedLife[], names: readonly string[]) {
  const complete: CoxLife[] = [];
  const lacking = new Map<string, number>();
  let left = 0;
  for (const { entry, exit, event, count, covariates } of lives) {
    const values: number[] = [];
    for (const name of names) {
      const value = covariates !== undefined && Object.hasOwn(covariates, name) ? covariates[name] : null;
      if (typeof value === 'number') values.push(value);
      else lacking.set(name, (lacking.get(name) ?? 0) + count);
    }
    if (values.length === names.length) complete.push({ entry, exit, event, count, covariates: values });
    else left += count;
  }
  return { complete, left, lacking };
}

const sayLeft = (left: number, lacking: Map<string, number>, words: Readonly<Record<string, string>>) =>
  `${left} of the lives ${left === 1 ? 'lacks' : 'lack'} an exposure and ${left === 1 ? 'is' : 'are'} left out of the Cox regression: ${sayLacking(lacking, words)}.`;

const sayLacking = (lacking: Map<string, number>, words: Readonly<Record<string, string>>) =>
  [...lacking]
    .map(
      ([name, lives]) => `${Object.hasOwn(words, name) ? words[name] : `"${name}"`} is missing in ${lives}`,
    )
    .join(', ');
