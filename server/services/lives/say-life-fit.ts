import type { LifeFitRow } from '#db/queries/list-life-fits.ts';
import type { LifeFit } from '#server/contract/lives.ts';
import { expectLife } from '#server/engine/life/expect-life.ts';
import { LEAST_FLEET } from '#server/engine/life/fit-platform-life.ts';
import { quantileOfWeibull } from '#server/engine/life/quantile-of-weibull.ts';
import { dayWords } from '#server/services/words/day-words.ts';

/** The life of a platform that the list reckons with; null where there is none. */
export function toLifeFit(row: LifeFitRow, lifeKm: number | null): LifeFit | null {
  const isExpected = row.basis === 'expected';
  if (isExpected && lifeKm === null) return null;
  const life = isExpected && lifeKm !== null ? expectLife(lifeKm) : row;
  return {
    platform: row.platform,
    fitted_at: row.fittedAt.toISOString(),
    basis: row.basis,
    lives: row.lives,
    failures: row.failures,
    fleet_failures: row.fleetFailures,
    shape: life.shape,
    scale_km: life.scaleKm,
    b10_km: boundLife(row, life, 0.1),
    b50_km: boundLife(row, life, 0.5),
    says: sayLifeFit(row),
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
): string {
  if (fit === null) return 'as expected in the settings';
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

const count = (n: number) => `${n} ${n === 1 ? 'failure' : 'failures'}`;
