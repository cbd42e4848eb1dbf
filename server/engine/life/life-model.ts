/** A life as far as it was seen, or several that are alike: mileage of the converter, or any other unit of use. */
export interface ObservedLife {
  /** where it was first seen, 0 or more: had it ended before, it would not be here */
  entry: number;
  /** where it failed, or was last seen to run; above entry */
  exit: number;
  /** whether it failed at exit */
  event: boolean;
  /** how many lives are like this one, above 0 */
  count: number;
  /** what failed, where that is known; of no meaning without event */
  mode?: string;
}

export interface BoundedLife {
  estimate: number;
  low: number;
  high: number;
}

/** What quantiles of a Weibull life need: shape, scale, and how sure both are, as logarithms. */
export interface WeibullSpread {
  shape: number;
  /** 63.2 % have failed by then */
  scale: number;
  varLogScale: number;
  varLogShape: number;
  /** covariance of log scale and log shape */
  covLogs: number;
}

export interface WeibullLife extends WeibullSpread {
  seShape: number;
  seScale: number;
  seLogScale: number;
  loglik: number;
  /** bounds on the log scale, at the confidence asked for */
  shapeLow: number;
  shapeHigh: number;
  scaleLow: number;
  scaleHigh: number;
  b10: BoundedLife;
  b50: BoundedLife;
  /** failures, lives counted by their count */
  events: number;
}
