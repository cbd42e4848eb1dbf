import type { Growth } from './wear-model.ts';

/**
 * Kilometres after its onset at which a clutch has risen by a share of the way to the limit: the inverse of shareRisen.
 *
 * @param growth how it grows
 * @param share  of the way from healthy slip to the limit, not negative
 * @param spanKm km from onset to the limit, positive
 * @returns km
 * Source: formula of {@link Growth}. Edges: 0 gives 0. Errors: none.
 * @example reachShare({ law: 'power', value: 2 }, 0.25, 10_000) // 5,000
 */
export function reachShare({ law, value }: Growth, share: number, spanKm: number): number {
  if (law === 'feedback') return value * Math.log1p(share * Math.expm1(spanKm / value));
  return spanKm * share ** (1 / value);
}
