import type {
  BandRise,
  ForecastPoint,
  Interval,
  Missing,
  RankFacts,
  Reason,
} from '#server/engine/assessment/assessment-model.ts';

/** What the rank over the fleet reads of every vehicle. */
export type StoredFacts = RankFacts & {
  /** kilometres ahead and chance of reaching the limit or failing within them */
  chances: [km: number, chance: number][];
};

/** What a row of the list shows beside the columns. */
export interface StoredBrief {
  reasons: Reason[];
  missing: Missing[];
  spark: [km: number, slipRpm: number][];
}

/** What the vehicle's own screen shows. */
export interface StoredDetail {
  fromKm: number | null;
  baseline: Interval | null;
  onset: Interval | null;
  accelerating: number;
  fitLine: [number, number][];
  forecast: ForecastPoint[];
  bandRises: BandRise[];
}
