import type { ClutchBuild, PlatformBuild } from './platforms.ts';

/** What time has done to one clutch. All zero is new. */
export interface ClutchState {
  /** closed pores and burnt film: friction needs more slip to build up, and reaches less */
  glaze: number;
  /** leak past piston or seal ring: share of apply pressure lost, worse in thin, hot fluid */
  leak: number;
  /** apply pressure lost behind a sticking valve */
  valveLoss: number;
  /** solenoid current lost, the same share at every command */
  solenoidLoss: number;
  /** 1 when piston or hub has let go */
  broken: number;
}

export interface ClutchWork {
  torqueNm: number;
  dutyPct: number;
  fluidC: number;
  turbineRpm: number;
}

export const freshState = (): ClutchState => ({
  glaze: 0,
  leak: 0,
  valveLoss: 0,
  solenoidLoss: 0,
  broken: 0,
});

/** Film slip follows viscosity to the power 0.15: exp(0.024 x 0.15 x (85 - T)). */
const FILM_PER_K = 0.0036;

/** Transmission fluid loses about 2.4 % of its viscosity per K (30 mm2/s at 40 degC, 7 at 100; from memory). */
export const relativeViscosity = (fluidC: number): number => Math.exp(0.024 * (85 - fluidC));

/** Torque the lining holds once friction is fully built up: mu x apply force x radius x faces. */
export function capacityNm(build: ClutchBuild, state: ClutchState, dutyPct: number, fluidC: number): number {
  const command = (dutyPct / 100) * (1 - state.solenoidLoss);
  const leakFactor = 1 + state.leak / relativeViscosity(fluidC);
  const pressureKpa = (build.fullPressureKpa * command * (1 - state.valveLoss)) / leakFactor;
  const forceN = Math.max(0, pressureKpa - build.returnPressureKpa) * 1000 * build.pistonAreaM2;
  const fade = 1 - 0.002 * (fluidC - 85);
  const friction = (build.frictionCoefficient * fade) / (1 + 0.006 * state.glaze);
  return build.faces * friction * forceN * build.meanRadiusM * (1 - 0.97 * state.broken);
}

/**
 * Slip at which clutch and converter fluid together carry the torque:
 * capacity (1 - exp(-slip / film)) + converter x slip = torque. The left side rises and is concave, so Newton
 * from zero climbs to the root and never passes it. Negative in overrun.
 */
export function solveSlipRpm(build: ClutchBuild, state: ClutchState, work: ClutchWork): number {
  const demandNm = Math.abs(work.torqueNm);
  const capacity = capacityNm(build, state, work.dutyPct, work.fluidC);
  const filmRpm = build.filmSlipRpm * (1 + state.glaze) * Math.exp(FILM_PER_K * (85 - work.fluidC));
  const converter = (build.converterNmPerRpm * Math.max(500, work.turbineRpm)) / 1500;
  let slip = 0;
  for (let i = 0; i < 40; i++) {
    const film = Math.exp(-slip / filmRpm);
    const lackNm = demandNm - capacity * (1 - film) - converter * slip;
    const step = lackNm / ((capacity / filmRpm) * film + converter);
    slip += step;
    if (step < 0.01) break;
  }
  if (work.torqueNm < 0) return -slip;
  const released = 1 - work.dutyPct / 100;
  return slip + build.microSlipRpm + build.microSlipLowCommandRpm * released * Math.sqrt(released);
}

export function referenceSlipRpm(platform: PlatformBuild, build: ClutchBuild, state: ClutchState): number {
  const { dutyPct, loadPct, fluidC, turbineRpm } = platform.reference;
  const torqueNm = (loadPct / 100) * platform.engine.peakTorqueNm;
  return solveSlipRpm(build, state, { torqueNm, dutyPct, fluidC, turbineRpm });
}

/** Heat in the clutch, kW: torque that slips times the speed of slipping. */
export const clutchHeatKw = (torqueNm: number, slipRpm: number): number =>
  (Math.abs(torqueNm * slipRpm) * Math.PI) / 30_000;
