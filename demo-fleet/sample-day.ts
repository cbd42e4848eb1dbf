import { HOUR_MS, weekdayOf } from './calendar.ts';
import { clutchHeatKw, solveSlipRpm } from './clutch.ts';
import { driveAt } from './drive.ts';
import { advanceFluidC, steadyFluidC } from './fluid.ts';
import { commandLockup, fullDutyPct } from './lockup.ts';
import { kmAt, kmOn, progressAt } from './plan.ts';
import type { Random } from './random.ts';
import { sampleRoad } from './terrain.ts';
import { lifeOn, stateOn, type Vehicle } from './vehicle.ts';
import { ambientC } from './weather.ts';

/** What truly happened in the vehicle at one moment, before any sensor. */
export interface Moment {
  msOfDay: number;
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number;
  torqueNm: number;
  loadPct: number;
  speedKmh: number;
  gear: number;
  turbineRpm: number;
  shifting: boolean;
}

const SLIPPING_HEAT_SHARE = 0.6;
const READINGS_A_DAY = [3, 4, 5, 5, 5, 5, 6, 6] as const;
const FIRST_READING_HOURS = 0.1;

/** The three to six moments (and the second ones while the clutch applies) of one vehicle's working day. */
export function sampleDay(vehicle: Vehicle, day: number, random: Random): Moment[] {
  const { platform, plan, depot } = vehicle;
  const dayKm = kmOn(plan, day);
  const life = lifeOn(vehicle, day);
  const worn = life === undefined ? undefined : stateOn(vehicle, life, day);
  if (dayKm === 0 || life === undefined || worn === undefined) return [];
  const state =
    worn.valveLoss > 0
      ? { ...worn, valveLoss: Math.min(0.97, worn.valveLoss * random.between(0.96, 1.01)) }
      : worn;
  const { build } = life;
  const payload = Math.max(
    0.05,
    Math.min(0.95, 0.5 * (depot.weekdayPayload[weekdayOf(day)] ?? 1) + random.normal(0, 0.12)),
  );
  const dayMeanC = vehicle.weather.meanC(day);
  const moments: Moment[] = [];
  const times = drawTimes(vehicle, random);
  let fluidC = ambientC(dayMeanC, platform.work.startHour) + 4;
  let previousMs = platform.work.startHour * HOUR_MS;

  for (const msOfDay of times) {
    let minutes = (msOfDay - previousMs) / 60_000;
    const ambient = ambientC(dayMeanC, msOfDay / HOUR_MS);
    if (random.chance(0.1)) {
      fluidC = Math.max(ambient, fluidC - random.between(15, 45));
      minutes = Math.min(minutes, random.between(4, 25));
    }
    const point = driveAt(platform, sampleRoad(depot, payload, random));
    const steadyC = steadyFluidC(platform, ambient, point.loadPct, 0);
    const coolC = advanceFluidC(platform, fluidC, steadyC, minutes);
    const lockup = commandLockup(platform, point, coolC, random);
    const { torqueNm, turbineRpm, loadPct, speedKmh, gear } = point;
    const slipAt = (dutyPct: number, atC: number) =>
      solveSlipRpm(build, state, { torqueNm, turbineRpm, fluidC: atC, dutyPct });
    const usualRpm = slipAt(fullDutyPct(point, 0), coolC);
    const heatKw = SLIPPING_HEAT_SHARE * clutchHeatKw(torqueNm, usualRpm);
    fluidC = advanceFluidC(platform, fluidC, steadyFluidC(platform, ambient, loadPct, heatKw), minutes);
    const heldRpm = slipAt(lockup.dutyPct, fluidC);
    const unsteady = lockup.phase === 'applying' || lockup.phase === 'shifting';
    const openRpm = unsteady ? slipAt(0, fluidC) : heldRpm;
    const odometerKm = kmAt(plan, day) + dayKm * progressAt(platform, msOfDay);
    moments.push({
      msOfDay,
      odometerKm,
      slipRpm: unsteady ? heldRpm + (openRpm - heldRpm) * random.between(0.2, 0.8) : heldRpm,
      dutyPct: lockup.dutyPct,
      fluidC,
      torqueNm,
      loadPct,
      speedKmh,
      gear,
      turbineRpm,
      shifting: lockup.phase === 'shifting',
    });
    if (lockup.phase === 'applying') {
      const dutyPct = Math.min(97, lockup.dutyPct + random.between(12, 40));
      const laterRpm = slipAt(dutyPct, fluidC);
      moments.push({
        msOfDay: msOfDay + 1000 * random.integer(4, 25),
        odometerKm,
        slipRpm: laterRpm + (openRpm - laterRpm) * random.between(0.05, 0.3),
        dutyPct,
        fluidC,
        torqueNm,
        loadPct,
        speedKmh,
        gear,
        turbineRpm,
        shifting: false,
      });
    }
    previousMs = msOfDay;
  }
  return moments;
}

function drawTimes(vehicle: Vehicle, random: Random): number[] {
  const { startHour, endHour } = vehicle.platform.work;
  const count = random.pick(READINGS_A_DAY);
  const times: number[] = [];
  for (let i = 0; i < count; i++)
    times.push(Math.round(random.between(startHour + FIRST_READING_HOURS, endHour) * 3600) * 1000);
  times.sort((one, other) => one - other);
  for (let i = 1; i < count; i++) times[i] = Math.max(times[i] ?? 0, (times[i - 1] ?? 0) + 60_000);
  return times;
}
