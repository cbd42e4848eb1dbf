import { ASSUMED_SHAPE } from './fit-shared-shape.ts';
import type { LifeHazard } from './platform-life.ts';

/** Gamma(1 + 1 / 2.2): mean of a Weibull life of that shape over its scale. */
const MEAN_OVER_SCALE = 0.8856;

/**
 * Weibull life with an expected mean, where no failures tell more.
 *
 * shape = 2.2, scale = mean / Gamma(1 + 1 / shape).
 *
 * @param expectedKm mean life, km, positive
 * @returns shape and scale, km
 * Source: mean of the Weibull, Meeker and Escobar 1998, section 4.8 (from memory); the shape is an assumption. Edges,
 * errors: none.
 * @example expectLife(300_000).scaleKm // 338_753
 */
export function expectLife(expectedKm: number): LifeHazard {
  return { shape: ASSUMED_SHAPE, scaleKm: expectedKm / MEAN_OVER_SCALE };
}
