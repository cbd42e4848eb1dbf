import type { Growth } from './wear-model.ts';

/**
 * Share of the way from healthy slip to the limit that a clutch has risen some kilometres after its onset.
 *
 * even power p: (gone / span)^p; feedback of e-folding length t: (exp(gone / t) - 1) / (exp(span / t) - 1).
 *
 * @param growth how it grows
 * @param goneKm km since the onset
 * @param spanKm km from onset to the limit, positive
 * @returns share, 0 before the onset, 1 at the span, above 1 beyond it
 * Source: formula of {@link Growth}. Edges: as said. Errors: none.
 * @example shareRisen({ law: 'power', value: 1 }, 5_000, 10_000) // 0.5
 */
export function shareRisen({ law, value }: Growth, goneKm: number, spanKm: number): number {
  if (goneKm <= 0) return 0;
  if (law === 'feedback') return Math.expm1(goneKm / value) / Math.expm1(spanKm / value);
  return value === 1 ? goneKm / spanKm : (goneKm / spanKm) ** value;
}
