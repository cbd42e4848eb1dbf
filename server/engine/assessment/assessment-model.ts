import type { Passage } from '#server/engine/wear/predict-passage.ts';
import type { Series } from './build-series.ts';

export type Grade = 'hold' | 'book' | 'watch' | 'steady' | 'unknown';

export type Pattern =
  | 'none'
  | 'drift_all_commands'
  | 'drift_low_command'
  | 'drift_high_command'
  | 'drift_hot'
  | 'accelerating'
  | 'step_then_level'
  | 'full_slip'
  | 'slipping_on_arrival'
  | 'code_only'
  | 'fell_back';

/** Estimate with a 95 % interval. */
export interface Interval {
  estimate: number;
  low: number;
  high: number;
}

/** One reason, as numbers; words are put to it where units are known. */
export type Reason =
  | { kind: 'past_limit'; slipRpm: number; limitRpm: number }
  | { kind: 'risen'; fromRpm: number; toRpm: number; overKm: number; sinceKm: number }
  | { kind: 'reaches_limit'; lowKm: number; highKm: number; limitRpm: number }
  | { kind: 'jumps_reach_limit'; lowKm: number; highKm: number; limitRpm: number }
  | { kind: 'high_on_arrival'; slipRpm: number; usualRpm: number }
  | { kind: 'jumped'; byRpm: number; atKm: number }
  | { kind: 'band_speaks'; fromPct: number; toPct: number; riseRpm: number }
  | { kind: 'hotter_worse'; rpmPerC: number; usualRpmPerC: number }
  | { kind: 'accelerating'; nowRpmPerKm: number; usualRpmPerKm: number }
  | { kind: 'code'; code: string; n: number; lastMs: number }
  | { kind: 'fell_back'; fromRpm: number; toRpm: number; atKm: number }
  | { kind: 'fleet_moved'; rpm: number; vehicles: number }
  | { kind: 'calm'; outcome: 'no_fault_found' | 'declined'; untilKm: number; atMs: number }
  | { kind: 'no_drift'; slipRpm: number; overKm: number };

/** What is missing and what that costs. */
export type Missing =
  | { kind: 'few_stretches'; have: number; need: number }
  | { kind: 'no_platform'; limitRpm: number }
  | { kind: 'no_load' }
  | { kind: 'no_temperature' }
  | { kind: 'quiet'; days: number }
  | { kind: 'short_start' }
  | { kind: 'small_platform'; vehicles: number }
  | { kind: 'no_usable' };

/** One band's rise since the healthy start, rpm, with its standard error. */
export interface BandRise {
  band: number;
  riseRpm: number;
  seRpm: number;
}

export interface ForecastPoint {
  km: number;
  /** slip at 2.5, 10, 25, 50, 75, 90 and 97.5 % */
  slipRpm: number[];
}

/** What one vehicle's stretches say, before it is set against the fleet. */
export interface VehicleAssessment {
  life: number;
  nowKm: number | null;
  kmPerDay: number | null;
  series: Series[];
  /** first km of the points that the fit rests on */
  fromKm: number | null;
  levelRpm: number | null;
  levelSd: number;
  baseline: Interval | null;
  onset: Interval | null;
  driftRpmPerKm: Interval | null;
  p: number | null;
  drifting: number;
  stepping: number;
  accelerating: number;
  passage: Passage | null;
  chancePastLimit: number;
  chanceSoon: number;
  chanceWithinHorizon: number;
  suddenChance: number;
  /** kilometres ahead, and the chance of reaching the limit or failing without notice within them */
  chances: [km: number, chance: number][];
  forecast: ForecastPoint[];
  fitLine: [km: number, slipRpm: number][];
  bandRises: BandRise[];
  pattern: Pattern;
  codes: { code: string; n: number; lastMs: number }[];
  reasons: Reason[];
  missing: Missing[];
}

/** What rank and grade over the fleet need of one vehicle. */
export type RankFacts = Pick<
  VehicleAssessment,
  | 'p'
  | 'drifting'
  | 'stepping'
  | 'chancePastLimit'
  | 'chanceSoon'
  | 'chanceWithinHorizon'
  | 'suddenChance'
  | 'levelRpm'
  | 'missing'
> & {
  baselineRpm: number | null;
  /** number of trouble codes that name the clutch */
  codes: number;
};
