/** A recorded trace in columns, one value a row; NaN where a row lacks it, null where the trace does. */
export interface TraceSamples {
  tMs: ArrayLike<number>;
  slipRpm: ArrayLike<number>;
  dutyPct: ArrayLike<number>;
  throttlePct: ArrayLike<number> | null;
  speedKmh: ArrayLike<number> | null;
  loadPct: ArrayLike<number> | null;
  fluidC: ArrayLike<number> | null;
  /** equal numbers are the same gear */
  gear: ArrayLike<number> | null;
  /** 1 while shifting, else 0 */
  shifting: ArrayLike<number> | null;
}

/** Rows that are read as one: those from `from` to before `to`. */
export interface WindowRows {
  from: number;
  to: number;
  fromMs: number;
  toMs: number;
  /** the first after a gap, or of the trace */
  begins: boolean;
}

export interface Gap {
  fromMs: number;
  toMs: number;
}

/** A window in medians; null where the trace does not carry the signal there. */
export interface TraceWindow {
  fromMs: number;
  toMs: number;
  begins: boolean;
  slipRpm: number;
  dutyPct: number;
  throttlePct: number | null;
  speedKmh: number | null;
  loadPct: number | null;
  fluidC: number | null;
  shifting: boolean | null;
}

/** Slip while command and throttle were held. */
export interface SteadyStretch {
  fromMs: number;
  toMs: number;
  /** mean */
  dutyPct: number;
  /** median */
  slipRpm: number;
  /** Theil-Sen, rpm per s, with 95 % limits */
  slope: { estimate: number; low: number; high: number };
  /** median */
  fluidC: number | null;
}
