import type { LifeEnding, LifeSource } from '#server/contract/words.ts';
import type { ClutchState } from './clutch.ts';
import type { DepotBuild } from './depots.ts';
import type { TypicalPoint } from './duty-cycle.ts';
import type { LifeRun } from './life-run.ts';
import type { DrivingPlan } from './plan.ts';
import type { ClutchBuild, PlatformBuild } from './platforms.ts';
import type { Random } from './random.ts';
import type { Fault } from './wear.ts';
import type { Weather } from './weather.ts';

/** How the vehicle's gateway speaks: everything; two speeds for slip; CSV with no load; miles and Fahrenheit. */
export type GatewayKind = 'full' | 'speeds' | 'plain' | 'imperial';

export interface VehicleLife {
  source: LifeSource;
  supplier: string | null;
  fittedKm: number;
  /** null where the life began before the readings */
  fittedDay: number | null;
  removedKm: number | null;
  removedDay: number | null;
  ended: LifeEnding | null;
  mode: string | null;
  /** false where the shop told nobody */
  reported: boolean;
  build: ClutchBuild;
  fault: Fault;
  run: LifeRun;
}

export interface EarlierLife {
  source: LifeSource;
  supplier: string | null;
  fittedKm: number;
  removedKm: number;
  ended: LifeEnding;
  mode: string;
}

export interface Vehicle {
  unit: string;
  platform: PlatformBuild;
  depot: DepotBuild;
  gateway: GatewayKind;
  registered: boolean;
  plan: DrivingPlan;
  weather: Weather;
  points: readonly TypicalPoint[];
  earlierLives: EarlierLife[];
  lives: VehicleLife[];
  activeFromDay: number;
  activeToDay: number;
  retired: boolean;
  /** days without a word from the gateway though the vehicle works */
  quiet: { fromDay: number; toDay: number } | null;
  odometerStep: { day: number; offsetKm: number } | null;
  softwareStep: { day: number; rpm: number } | null;
  nuisanceCode: { code: string; fromDay: number; toDay: number } | null;
  slipBiasRpm: number;
  random: Random;
}

export function lifeOn(vehicle: Vehicle, day: number): VehicleLife | undefined {
  return vehicle.lives.find(
    (life) =>
      (life.fittedDay ?? Number.NEGATIVE_INFINITY) <= day &&
      day <= (life.removedDay ?? Number.POSITIVE_INFINITY),
  );
}

export const stateOn = (vehicle: Vehicle, life: VehicleLife, day: number): ClutchState | undefined =>
  life.run.states[day - vehicle.plan.windowDay];

export const isSending = (vehicle: Vehicle, day: number): boolean =>
  day >= vehicle.activeFromDay &&
  day <= vehicle.activeToDay &&
  (vehicle.quiet === null || day < vehicle.quiet.fromDay || day > vehicle.quiet.toDay);
