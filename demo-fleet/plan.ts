import { HOUR_MS, weekdayOf } from './calendar.ts';
import type { PlatformBuild } from './platforms.ts';
import { Random } from './random.ts';

/** Kilometres of every day, from well before the first reading to beyond the end; odometer in true km. */
export interface DrivingPlan {
  firstDay: number;
  windowDay: number;
  endDay: number;
  lastDay: number;
  /** odometer at the beginning of firstDay + i */
  odometerKm: Float64Array;
  dayKm: Float64Array;
}

export interface Window {
  windowDay: number;
  endDay: number;
  endMs: number;
}

const DAYS_BEFORE = 700;
const KM_BEYOND_END = 60_000;

export const meanKmPerDay = (platform: PlatformBuild): number =>
  (platform.work.kmPerDay * platform.work.workday.reduce((sum, share) => sum + share, 0)) / 7;

export function planDriving(
  platform: PlatformBuild,
  window: Window,
  odometerAtWindowKm: number,
  seed: string,
): DrivingPlan {
  const random = new Random(`${seed}|plan`);
  const usage = random.between(0.8, 1.2);
  const meanKm = meanKmPerDay(platform) * usage;
  const { windowDay, endDay } = window;
  const firstDay = windowDay - DAYS_BEFORE;
  const lastDay = endDay + Math.ceil(KM_BEYOND_END / meanKm) + 5;
  const dayKm = new Float64Array(lastDay - firstDay + 1).fill(meanKm);
  for (let day = windowDay; day <= endDay; day++) {
    const works = random.chance(platform.work.workday[weekdayOf(day)] ?? 0);
    const km = platform.work.kmPerDay * usage * Math.exp(random.normal(0, 0.17));
    dayKm[day - firstDay] = works ? km : 0;
  }
  const parkedWeeks = Math.floor(((endDay - windowDay) / 365) * random.between(0.5, 3.5) + random.unit());
  for (let i = 0; i < parkedWeeks; i++) {
    const from = random.integer(windowDay, endDay - 7) - firstDay;
    dayKm.fill(0, from, from + random.integer(5, 9));
  }
  const plan = {
    firstDay,
    windowDay,
    endDay,
    lastDay,
    dayKm,
    odometerKm: new Float64Array(dayKm.length + 1),
  };
  sumOdometer(plan, odometerAtWindowKm);
  return plan;
}

export function sumOdometer(plan: DrivingPlan, odometerAtWindowKm: number): void {
  const { odometerKm, dayKm } = plan;
  const window = plan.windowDay - plan.firstDay;
  odometerKm[window] = odometerAtWindowKm;
  for (let i = window; i < dayKm.length; i++) odometerKm[i + 1] = (odometerKm[i] ?? 0) + (dayKm[i] ?? 0);
  for (let i = window - 1; i >= 0; i--) odometerKm[i] = (odometerKm[i + 1] ?? 0) - (dayKm[i] ?? 0);
}

/** The vehicle stands still from the day after this one. */
export function stopDriving(plan: DrivingPlan, lastDay: number): void {
  plan.dayKm.fill(0, lastDay + 1 - plan.firstDay);
  sumOdometer(plan, kmAt(plan, plan.windowDay));
}

export const kmAt = (plan: DrivingPlan, day: number): number => plan.odometerKm[day - plan.firstDay] ?? 0;
export const kmOn = (plan: DrivingPlan, day: number): number => plan.dayKm[day - plan.firstDay] ?? 0;

/** Share of the day's kilometres driven by a moment of the day. */
export function progressAt(platform: PlatformBuild, msOfDay: number): number {
  const hours = msOfDay / HOUR_MS;
  const { startHour, endHour } = platform.work;
  return Math.max(0, Math.min(1, (hours - startHour) / (endHour - startHour)));
}

/** First day on whose evening the odometer has reached this mileage. */
export function dayReaching(plan: DrivingPlan, km: number): number {
  let low = 0;
  let high = plan.dayKm.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((plan.odometerKm[middle + 1] ?? 0) >= km) high = middle;
    else low = middle + 1;
  }
  return plan.firstDay + low;
}
