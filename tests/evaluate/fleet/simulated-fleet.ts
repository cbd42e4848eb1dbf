/** A fleet with known truth, as the evaluation sees it. */
export interface SimulatedFleet {
  name: string;
  family: string;
  seed: string;
  /** First day, UTC. */
  fromMs: number;
  /** End of the history, UTC midnight after the last day. */
  toMs: number;
  /** Bodies for POST /api/platforms, /api/depots and /api/vehicles. */
  platforms: object[];
  depots: object[];
  vehicles: object[];
  /** Reported lives only: bodies for POST /api/lives, with the moment when they are reported. */
  lives: { atMs: number; life: object }[];
  /** Readings in order of arrival, one batch a day: late ones late, duplicates twice. Can be walked again. */
  arrivals: Iterable<{ atMs: number; readings: object[] }>;
  truth: VehicleTruth[];
}

export type Wear = 'none' | 'linear' | 'accelerating' | 'power' | 'stepwise';

export interface VehicleTruth {
  unit: string;
  platform: string | null;
  /** Law of the last converter on which wear began within the history. */
  wear: Wear;
  firstReadingMs: number;
  limitRpm: number;
  /** True km, whatever the instrument shows; constant after the end of the history. */
  odometerAt(ms: number): number;
  /** Noise-free slip at the platform's reference point, without common steps, season and day effects. */
  referenceSlipAt(ms: number): number;
  /** True km until the reference slip crosses the limit; 0 when past; null when not within 300,000 km. */
  kmToLimitAt(ms: number): number | null;
  /** Has wear begun on the converter that is in the vehicle then? */
  hasOnsetAt(ms: number): boolean;
  /** Crossings of the limit within the history, in any life. */
  crossings: { km: number; ms: number }[];
  replacements: { km: number; ms: number; reported: boolean }[];
}

type Range = [low: number, high: number];
export type WearLawName = Exclude<Wear, 'none'>;

/** A step that all vehicles of one platform make on one date, such as new electronics. */
export interface CommonStep {
  /** Index into the platforms of the fleet. */
  platform: number;
  /** Where in the history, 0 to 1. */
  when: number;
  rpm: number;
}

/** What one simulated fleet is made of. Shares are 0 to 1. */
export interface FleetRecipe {
  name: string;
  family: string;
  seed: string;
  /** Kept aside: never looked at while building. */
  kept: boolean;
  vehicles: number;
  /** Which physics makes slip out of torque, pressure and temperature. */
  friction: 'breakaway' | 'film';
  /** Relative weights of the laws of wear. */
  wears: Partial<Record<WearLawName, number>>;
  /** Days of history of one vehicle; the longest is that of the fleet. */
  historyDays: Range;
  /** Share of vehicles that are there from the first day. */
  thereFromStart: number;
  /** Standard deviation of slip sensors, one value a vehicle. */
  slipNoiseRpm: Range;
  /** Standard deviation of the offset of a vehicle and day, one value a vehicle. */
  dayEffectRpm: Range;
  /** Largest seasonal bias of slip. */
  seasonRpm: number;
  /** Steps in which slip is sent; each gateway has one of them. */
  slipQuantaRpm: number[];
  glitchShare: number;
  /** How far the mean load of depots spreads, in percent points. */
  depotLoads: Range;
  /** Standard deviation of load between readings of one vehicle. */
  loadSpread: number;
  /** Share of vehicles whose usual load or temperature is far from the reference. */
  farShare: number;
  /** Share of gateways that send neither load nor speed and temperature in 5 degree steps. */
  leanShare: number;
  commonSteps: CommonStep[];
  /** Share of vehicles whose converter crossed the limit and was replaced within the history. */
  failedShare: number;
  /** Share of vehicles whose converter was replaced before. */
  preventiveShare: number;
  /** Share of replacements that nobody reports. */
  unreportedShare: number;
  /** How much duty the electronics add for each rpm of reference slip above healthy. */
  dutyPerSlipRpm: number;
}
