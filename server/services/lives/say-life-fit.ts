import type { LifeFitRow } from '#db/queries/list-life-fits.ts';
import type { LifeFit } from '#server/contract/lives.ts';
import { expectLife } from '#server/engine/life/expect-life.ts';
import { LEAST_FLEET } from '#server/engine/life/fit-platform-life.ts';
import { quantileOfWeibull } from '#server/engine/life/quantile-of-weibull.ts';
import { dayWords } from '#server/services/words/day-words.ts';

/**
 * The life of a platform that the list reckons with; null where there is none. It rests on vehicles of all depots, so how many
 * of them failed is told to those alone who see them all.
 */
export function toLifeFit(row: LifeFitRow, lifeKm: number | null, isCounted: boolean): LifeFit | null {
  const isExpected = row.basis === 'expected';
  if (isExpected && lifeKm === null) return null;
  const life = isExpected && lifeKm !== null ? expectLife(lifeKm) : row;
  return {
    platform: row.platform,
    fitted_at: row.fittedAt.toISOString(),
    basis: row.basis,
    lives: isCounted ? row.lives : null,
    failures: isCounted ? row.failures : null,
    fleet_failures: isCounted ? row.fleetFailures : null,
    shape: life.shape,
    scale_km: life.scaleKm,
    b10_km: boundLife(row, life, 0.1),
    b50_km: boundLife(row, life, 0.5),
    says: sayLifeFit(row, isCounted),
  };
}

function boundLife(
  { varLogScale, varLogShape, covLogs }: LifeFitRow,
  { shape, scaleKm }: { shape: number; scaleKm: number },
  share: number,
) {
  const spread = {
    shape,
    scale: scaleKm,
    varLogScale: varLogScale ?? 0,
    varLogShape: varLogShape ?? 0,
    covLogs: covLogs ?? 0,
  };
  const { estimate, low, high } = quantileOfWeibull(spread, share, 0.95);
  return varLogScale === null ? { estimate, low: null, high: null } : { estimate, low, high };
}

/** What the life of a platform rests on, in words that follow 'Life of the platform: '; null where none was fitted yet. */
export function sayLifeFit(
  fit: Pick<LifeFitRow, 'basis' | 'failures' | 'fleetFailures' | 'fittedAt'> | null,
  isCounted: boolean,
): string {
  if (fit === null) return 'as expected in the settings';
  if (!isCounted) return sayWithoutCounts(fit);
  const { basis, failures, fleetFailures } = fit;
  const day = dayWords(fit.fittedAt);
  switch (basis) {
    case 'own':
      return `fitted from ${count(failures)} of its own on ${day}`;
    case 'shared_shape':
      return `fitted from ${count(failures)} of its own and the shape of the fleet's ${fleetFailures} on ${day}`;
    case 'fleet':
      return `borrowed from ${count(fleetFailures)} elsewhere in the fleet on ${day}`;
    case 'expected':
      return `as expected in the settings: the fleet has ${fleetFailures === 0 ? 'no failure' : count(fleetFailures)} on record, a fit needs ${LEAST_FLEET}`;
  }
}

function sayWithoutCounts({ basis, fittedAt }: Pick<LifeFitRow, 'basis' | 'fittedAt'>): string {
  const words: Record<LifeFitRow['basis'], string> = {
    own: 'fitted from failures of its own',
    shared_shape: "fitted from few failures of its own and the shape of the fleet's",
    fleet: 'borrowed from failures elsewhere in the fleet',
    expected: `as expected in the settings: the fleet has fewer failures on record than a fit needs, ${LEAST_FLEET}`,
  };
  if (basis === 'expected') return words.expected;
  return `${words[basis]} on ${dayWords(fittedAt)}, at all depots: how many is told to those who work for all`;
}

const count = (n: number) => `${n} ${n === 1 ? 'failure' : 'failures'}`;
