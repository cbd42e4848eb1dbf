import type { ConditionEffects } from '#server/engine/conditions/fit-condition-effects.ts';
import type { ReferencePoint } from '#server/engine/stretches/weigh-reading.ts';
import { defaultWearPrior, type WearPrior } from '#server/engine/wear/wear-model.ts';
import type { CommonWeek } from './estimate-common-movement.ts';
import type { FleetEvent } from './find-fleet-events.ts';

/** What the vehicles of a platform have in common within one band. */
export interface BandContext {
  band: number;
  /** usual slip of a stretch as measured, rpm */
  usualRpm: number;
  effects: ConditionEffects;
  movement: CommonWeek[];
  /** usual healthy slip at the reference point and its spread between vehicles, rpm */
  baselineRpm: number;
  baselineSd: number;
}

/** What was learned from all vehicles of a platform. */
export interface PlatformContext {
  bands: BandContext[];
  wear: WearPrior;
  events: FleetEvent[];
  vehicles: number;
}

/** Settings of a platform that the arithmetic needs. */
export interface PlatformSettings {
  limitRpm: number;
  bandEdgesPct: readonly number[];
  reference: ReferencePoint;
  lifeKm: number | null;
  roadFailureCost: number;
  plannedRepairCost: number;
  inspectionCost: number;
}

export const weekMs = 7 * 86_400_000;
/** 1970-01-05 was a Monday: weeks are numbered from it. */
const FIRST_MONDAY_MS = 4 * 86_400_000;

/** Number of the week, from Monday 1970-01-05 UTC, of a moment in ms. */
export const weekOf = (ms: number): number => Math.floor((ms - FIRST_MONDAY_MS) / weekMs);
/** First moment of a week, ms; a fraction of a week is allowed. */
export const weekStartMs = (week: number): number => FIRST_MONDAY_MS + week * weekMs;

const noEffects: ConditionEffects = { healthy: [0, 0, 0], worn: [0, 0, 0] };

/** Context of a band of which nothing was learned. */
export const unknownBand = (band: number): BandContext => ({
  band,
  usualRpm: defaultWearPrior.baselineRpm,
  effects: noEffects,
  movement: [],
  baselineRpm: defaultWearPrior.baselineRpm,
  baselineSd: defaultWearPrior.baselineSd,
});

export const unknownPlatform: PlatformContext = {
  bands: [],
  wear: defaultWearPrior,
  events: [],
  vehicles: 0,
};
