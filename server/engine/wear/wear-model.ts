/** One stretch as the wear model sees it. */
export interface WearPoint {
  /** odometer, km */
  km: number;
  /** slip at the reference point, rpm */
  slipRpm: number;
  /** variance of that slip, rpm^2 */
  variance: number;
}

/** One clutch as far as it was seen: a life, or the part after an unreported replacement. */
export interface SeenClutch {
  points: readonly WearPoint[];
  independence: number;
  earliestKm: number;
}

/** What is believed of a vehicle of this platform before its own readings are seen. */
export interface WearPrior {
  /** usual healthy slip and its spread between vehicles, rpm */
  baselineRpm: number;
  baselineSd: number;
  /** kilometres from onset to the limit: mean and standard deviation of the natural logarithm */
  logSpanMean: number;
  logSpanSd: number;
  /** chance per km that a healthy clutch begins to wear */
  onsetPerKm: number;
  /** how wear grows: share of each way among clutches that wear, summing to 1 */
  growths: readonly (Growth & { share: number })[];
  /**
   * standard deviation of the natural logarithm by which the way still to go differs from that of a smooth path: duty,
   * drivers and break-up of the lining do not go on as before
   */
  waySd: number;
  /** size of the jumps in which a rise usually comes, rpm: its variance for each rpm of rise */
  raggedRpm: number;
}

/**
 * How slip grows after onset. `power`: by (gone / span)^value, a value of 1 being even wear, above 1 accelerating.
 * `feedback`: each rpm of slip heats the lining and brings more, so exponentially with an e-folding length of value km.
 */
export interface Growth {
  law: 'power' | 'feedback';
  value: number;
}

/**
 * Growth after onset: slip = a + (limit - a) * share of {@link Growth}; `step` is a jump that stays; `flat` is no change.
 */
export interface WearCase {
  kind: 'drift' | 'step' | 'flat';
  growth: Growth;
  onsetKm: number;
  /** km from onset to the limit; infinite for step and flat */
  spanKm: number;
  /** healthy slip a: posterior mean and standard deviation, rpm */
  baselineRpm: number;
  baselineSd: number;
  /** slip at the last point by this case, and its standard deviation, rpm */
  levelRpm: number;
  levelSd: number;
  /** posterior probability */
  weight: number;
}

/** Usual prior where nothing has been learned: assumptions of our own, no source. */
export const defaultWearPrior: WearPrior = {
  baselineRpm: 15,
  baselineSd: 12,
  logSpanMean: Math.log(18_000),
  logSpanSd: 0.75,
  onsetPerKm: 1 / 150_000,
  growths: [
    { law: 'power', value: 1, share: 0.3 },
    { law: 'power', value: 1.7, share: 0.22 },
    { law: 'power', value: 3, share: 0.16 },
    { law: 'power', value: 6, share: 0.1 },
    { law: 'feedback', value: 5_000, share: 0.11 },
    { law: 'feedback', value: 11_000, share: 0.11 },
  ],
  waySd: 0.4,
  raggedRpm: 6,
};
