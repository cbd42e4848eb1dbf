import type { ConditionEffects } from '#server/engine/conditions/fit-condition-effects.ts';
import type { LifeHazard } from '#server/engine/life/platform-life.ts';
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
  /** usual load and fluid temperature behind it, for vehicles whose feed lacks them; null where no feed has them */
  usual: { loadPct: number | null; fluidC: number | null };
  /** usual healthy slip at the reference point and its spread between vehicles, rpm */
  baselineRpm: number;
  baselineSd: number;
}

/** What was learned from all vehicles of a platform. */
export interface PlatformContext {
  /** {@link CONTEXT_VERSION} of the arithmetic that learned it */
  version: number;
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
  /** of its converters; null where nothing tells of it */
  life: LifeHazard | null;
  roadFailureCost: number;
  plannedRepairCost: number;
  inspectionCost: number;
}

/** To be raised whenever what is learned changes its shape or meaning: contexts of another version are learned again. */
export const CONTEXT_VERSION = 4;

export const unknownPlatform: PlatformContext = {
  version: CONTEXT_VERSION,
  bands: [],
  wear: defaultWearPrior,
  events: [],
  vehicles: 0,
};
