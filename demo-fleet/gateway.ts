import type { ReadingInput } from '#server/contract/readings.ts';
import { fahrenheitFromCelsius, milesFromKm } from '#server/contract/units.ts';
import { DAY_MS, momentText } from './calendar.ts';
import type { ClutchState } from './clutch.ts';
import type { Random } from './random.ts';
import type { Moment } from './sample-day.ts';
import type { Vehicle } from './vehicle.ts';

const round = (value: number, step: number): number => Math.round(value / step) / Math.round(1 / step);

/** Scatter that all readings of one vehicle and day share: how warm, aerated and freshly adapted it was. */
export interface DayEffect {
  offsetRpm: number;
  factor: number;
}

export const drawDayEffect = (random: Random): DayEffect => ({
  offsetRpm: random.normal(0, 1.2),
  factor: Math.exp(random.normal(0, 0.04)),
});

/** What the sensors and the gateway make of a moment. */
export function toReading(
  vehicle: Vehicle,
  day: number,
  moment: Moment,
  effect: DayEffect,
  state: ClutchState | undefined,
  glitchShare: number,
): ReadingInput {
  const { random, gateway, platform } = vehicle;
  const software = vehicle.softwareStep;
  let slipRpm =
    moment.slipRpm * effect.factor +
    effect.offsetRpm +
    vehicle.slipBiasRpm +
    (software !== null && day >= software.day ? software.rpm : 0) +
    random.normal(0, 1.8 + 0.03 * Math.abs(moment.slipRpm));
  if (random.chance(glitchShare)) slipRpm = glitch(slipRpm, random);
  slipRpm = round(Math.max(-1500, Math.min(3500, slipRpm)), 0.1);
  const moved = vehicle.odometerStep;
  const odometerKm = moment.odometerKm + (moved !== null && day >= moved.day ? moved.offsetKm : 0);
  const fluidC = moment.fluidC + random.normal(0, 0.8);
  const reading: ReadingInput = {
    vehicle: vehicle.unit,
    at: momentText(day * DAY_MS + moment.msOfDay),
    duty_pct: round(Math.max(0, Math.min(100, moment.dutyPct + random.normal(0, 0.3))), 0.1),
  };
  if (gateway === 'imperial') {
    reading.odometer_mi = round(milesFromKm(odometerKm), 0.1);
    reading.fluid_f = Math.round(fahrenheitFromCelsius(fluidC));
    reading.speed_mph = Math.round(milesFromKm(moment.speedKmh));
  } else {
    reading.odometer_km = round(odometerKm, 0.1);
    reading.fluid_c = round(fluidC, 0.1);
    reading.speed_kmh = round(moment.speedKmh, 0.1);
  }
  if (gateway === 'speeds') {
    const turbineRpm = round(moment.turbineRpm, 0.1);
    reading.turbine_rpm = turbineRpm;
    reading.engine_rpm = Math.max(0, round(turbineRpm + slipRpm, 0.1));
  } else reading.slip_rpm = slipRpm;
  if (gateway !== 'plain') {
    reading.load_pct = Math.max(0, Math.min(125, Math.round(moment.loadPct + random.normal(0, 1.2))));
    reading.gear = moment.gear;
    const codes = activeCodes(vehicle, day, moment, state);
    if (codes.length > 0) reading.codes = codes;
  } else reading.seconds = 20;
  if (gateway === 'full') {
    reading.torque_pct = Math.round((100 * moment.torqueNm) / platform.engine.peakTorqueNm);
    reading.throttle_pct = Math.round(Math.min(100, 6 + 0.85 * moment.loadPct));
    reading.seconds = 10;
  }
  if (gateway === 'full' || gateway === 'speeds') if (moment.shifting) reading.shifting = true;
  return reading;
}

/** Dropped frames and stuck values that nothing marks. */
function glitch(slipRpm: number, random: Random): number {
  const kind = random.unit();
  if (kind < 0.5) return slipRpm + random.between(60, 600);
  if (kind < 0.75) return 0;
  if (kind < 0.95) return slipRpm - random.between(20, 120);
  return random.between(900, 1600);
}

/** P0741, clutch stuck off or out of performance, and P0740, its circuit (SAE J2012; meanings from memory). */
function activeCodes(
  vehicle: Vehicle,
  day: number,
  moment: Moment,
  state: ClutchState | undefined,
): string[] {
  const { random, nuisanceCode } = vehicle;
  const codes: string[] = [];
  const loss = state?.solenoidLoss ?? 0;
  if (loss > 0.1 && random.chance(Math.min(0.85, 1.5 * loss))) codes.push('P0741');
  else if (moment.dutyPct > 75 && moment.slipRpm > 260 && random.chance(0.4)) codes.push('P0741');
  if (loss > 0.3 && random.chance(0.3)) codes.push('P0740');
  if (nuisanceCode !== null && day >= nuisanceCode.fromDay && day <= nuisanceCode.toDay)
    codes.push(nuisanceCode.code);
  return codes;
}
