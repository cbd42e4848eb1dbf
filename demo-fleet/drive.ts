import type { PlatformBuild } from './platforms.ts';

export interface Road {
  speedKmh: number;
  gradePct: number;
  accelerationMs2: number;
  payloadShare: number;
}

export interface DrivePoint {
  speedKmh: number;
  gear: number;
  turbineRpm: number;
  torqueNm: number;
  /** share of the torque available at this engine speed, 0 in overrun */
  loadPct: number;
}

const GRAVITY = 9.81;
const AIR_KG_M3 = 1.22;

export function availableTorqueNm({ engine }: PlatformBuild, rpm: number): number {
  if (rpm < engine.flatFromRpm) return engine.peakTorqueNm * (0.45 + (0.55 * rpm) / engine.flatFromRpm);
  if (rpm <= engine.flatToRpm) return engine.peakTorqueNm;
  return engine.peakTorqueNm * (1 - (0.3 * (rpm - engine.flatToRpm)) / (engine.maxRpm - engine.flatToRpm));
}

/** Torque at the converter for a moment on the road: highest gear that carries it, full load where none does. */
export function driveAt(platform: PlatformBuild, road: Road): DrivePoint {
  const { body, driveline, engine } = platform;
  const massKg = body.emptyKg + body.payloadKg * road.payloadShare;
  const speedMs = road.speedKmh / 3.6;
  const forceN =
    massKg * GRAVITY * (body.rolling + road.gradePct / 100) +
    0.5 * AIR_KG_M3 * body.dragAreaM2 * speedMs * speedMs +
    1.06 * massKg * road.accelerationMs2;
  const axleRpm = (speedMs / driveline.tyreRadiusM) * (30 / Math.PI);
  const lowestRpm = engine.flatFromRpm * 1.05;
  for (let gear = driveline.gearRatios.length; gear >= 1; gear--) {
    const ratio = (driveline.gearRatios[gear - 1] ?? 1) * driveline.finalDrive;
    const turbineRpm = axleRpm * ratio;
    if (turbineRpm < lowestRpm && gear > 1) continue;
    const lossFactor = forceN >= 0 ? 1 / driveline.efficiency : driveline.efficiency;
    const torqueNm = ((forceN * driveline.tyreRadiusM) / ratio) * lossFactor;
    const availableNm = availableTorqueNm(platform, turbineRpm);
    const nextRatio = driveline.gearRatios[gear - 2];
    const canShiftDown =
      nextRatio !== undefined && axleRpm * nextRatio * driveline.finalDrive < engine.maxRpm * 0.92;
    if (torqueNm > 0.93 * availableNm && canShiftDown) continue;
    const carriedNm = Math.max(-0.12 * engine.peakTorqueNm, Math.min(torqueNm, availableNm));
    const loadPct = Math.max(0, (100 * carriedNm) / availableNm);
    return { speedKmh: road.speedKmh, gear, turbineRpm, torqueNm: carriedNm, loadPct };
  }
  return { speedKmh: road.speedKmh, gear: 1, turbineRpm: lowestRpm, torqueNm: 0, loadPct: 0 };
}
