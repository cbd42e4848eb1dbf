import type { Growth } from './wear-model.ts';

/** One case of wear as it stands now, for looking ahead. */
export interface Outlook {
  weight: number;
  /** healthy slip and slip now, rpm */
  baselineRpm: number;
  levelRpm: number;
  /** standard deviation of the level, rpm */
  levelSd: number;
  growth: Growth;
  /** km gone on that path so far; the level now lies on it */
  goneKm: number;
  /** km from its onset to the limit; infinite where nothing grows */
  spanKm: number;
  /** standard deviation of the natural logarithm by which the way left differs from a smooth path */
  waySd: number;
}

/** Usual prior of how a clutch that stands on a jump goes on, and how far instruments and conditions mislead. */
export interface OutlookRules {
  limitRpm: number;
  waySd: number;
  logSpanMean: number;
  /** variance that a ragged rise has for each rpm of it: the size of its jumps, rpm */
  raggedRpm: number;
  /** share of the rise by which the level at the reference point may be wrong as a whole */
  levelShare: number;
}
