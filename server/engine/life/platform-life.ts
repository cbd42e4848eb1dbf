/** Weibull life of converters. */
export interface LifeHazard {
  shape: number;
  /** 63.2 % have failed by then, km */
  scaleKm: number;
}

/** What the life of a platform's converters was taken from. */
export const lifeBases = ['own', 'shared_shape', 'fleet', 'expected'] as const;
export type LifeBasis = (typeof lifeBases)[number];

/** Life of a platform's converters, with what it rests on. */
export interface PlatformLife extends LifeHazard {
  basis: LifeBasis;
  /** of the platform, watched */
  lives: number;
  failures: number;
  fleetFailures: number;
  /** of log scale and log shape; null where nothing was fitted */
  variances: LifeVariances | null;
}

export interface LifeVariances {
  logScale: number;
  logShape: number;
  covariance: number;
}
