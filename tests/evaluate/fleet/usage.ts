import type { SimulatedVehicle } from './plan-vehicle.ts';
import type { RandomSource } from './random-source.ts';
import type { FleetRecipe } from './simulated-fleet.ts';

/** How one vehicle is used and what its gateway and sensors are like. */
export interface Usage {
  meanLoadPct: number;
  /** Against what fluid temperature would be elsewhere. */
  warmerC: number;
  /** Duty commanded at reference load. */
  baseDutyPct: number;
  slipNoiseRpm: number;
  dayEffectRpm: number;
  loadBiasPct: number;
  fluidBiasC: number;
  slipQuantumRpm: number;
  dutyQuantumPct: number;
  odometerQuantumKm: number;
  isLean: boolean;
  sendsTorque: boolean;
  sendsGear: boolean;
  /** Sends trouble codes when the clutch slips a lot. */
  setsCode: boolean;
}

export function drawUsage(vehicle: SimulatedVehicle, recipe: FleetRecipe, random: RandomSource): Usage {
  const { reference } = vehicle.platform.clutch;
  const far = random.happens(recipe.farShare) ? random.whole(1, 3) : 0;
  const away = random.happens(0.5) ? 1 : -1;
  const farLoad = far === 1 || far === 3 ? away * random.between(16, 24) : 0;
  const farFluid = far === 2 ? away * random.between(11, 16) : far === 3 ? away * random.between(4, 9) : 0;
  const isLean = random.happens(recipe.leanShare);
  return {
    meanLoadPct: reference.loadPct + vehicle.depot.loadPct + 4 * random.normal() + farLoad,
    warmerC: 0.35 * vehicle.depot.ambientC + 2.5 * random.normal() + farFluid,
    baseDutyPct: reference.dutyPct + random.between(-9, 3),
    slipNoiseRpm: random.between(...recipe.slipNoiseRpm),
    dayEffectRpm: random.between(...recipe.dayEffectRpm),
    loadBiasPct: 1.5 * random.normal(),
    fluidBiasC: random.normal(),
    slipQuantumRpm: random.pick(recipe.slipQuantaRpm),
    dutyQuantumPct: random.pick([0.4, 0.5, 1]),
    odometerQuantumKm: random.pick([0.125, 0.125, 1]),
    isLean,
    sendsTorque: !isLean && random.happens(0.4),
    sendsGear: !isLean && random.happens(0.7),
    setsCode: random.happens(0.4),
  };
}
