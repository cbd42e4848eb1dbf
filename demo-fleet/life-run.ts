import { type ClutchState, freshState, referenceSlipRpm } from './clutch.ts';
import { measureDay, type TypicalPoint } from './duty-cycle.ts';
import { type DrivingPlan, kmAt, kmOn } from './plan.ts';
import type { ClutchBuild, PlatformBuild } from './platforms.ts';
import { AGEING_GLAZE_PER_KM, AGEING_GLAZE_PER_MJ, createWear, type Fault } from './wear.ts';
import type { Weather } from './weather.ts';

export interface LifeSetting {
  platform: PlatformBuild;
  build: ClutchBuild;
  points: readonly TypicalPoint[];
  weather: Weather;
  plan: DrivingPlan;
  fault: Fault;
  fittedKm: number;
  fromDay: number;
  toDay: number;
}

/** What the physics says of one clutch without any sensor. */
export interface LifeRun {
  onsetKm: number | null;
  crossingKm: number | null;
  /** state on the morning of each day of the window, by day - windowDay */
  states: (ClutchState | undefined)[];
  /** reference slip on the evening of each day of the window, by day - windowDay */
  eveningRpm: number[];
  /** mileage and reference slip, about every 500 km of the window */
  series: [number, number][];
}

/** The reference slip has begun to rise once it stands this much above its level at the start of the fault. */
const ONSET_RISE_RPM = 3;
const SERIES_KM = 500;
const QUIET_DAYS_PER_STEP = 7;

/** Wears one clutch from day to day; with `record` off only onset and crossing are found. */
export function runLife(setting: LifeSetting, record: boolean): LifeRun {
  const { platform, build, points, weather, plan, fault } = setting;
  const firstDay = Math.max(setting.fromDay, plan.firstDay);
  const run: LifeRun = { onsetKm: null, crossingKm: null, states: [], eveningRpm: [], series: [] };
  const state = freshState();
  const fresh = measureDay(platform, build, state, points, 15);
  let { heatMjPerKm, fluidC } = fresh;
  state.glaze =
    Math.max(0, kmAt(plan, firstDay) - setting.fittedKm) *
    (AGEING_GLAZE_PER_KM + AGEING_GLAZE_PER_MJ * heatMjPerKm);
  const wear = createWear(state, fault);
  let slipRpm = referenceSlipRpm(platform, build, state);
  let levelRpm: number | null = null;
  let seriesKm = Number.NEGATIVE_INFINITY;

  for (let day = firstDay; day <= setting.toDay; day++) {
    const km = kmOn(plan, day);
    const fromKm = kmAt(plan, day);
    const inWindow = day >= plan.windowDay && day <= plan.endDay;
    if (record && inWindow) run.states[day - plan.windowDay] = { ...state };
    if (record && inWindow) run.eveningRpm[day - plan.windowDay] = slipRpm;
    if (km === 0 || fromKm + km < setting.fittedKm) continue;
    const faultKm = Math.min(km, fromKm + km - fault.startKm);
    if (faultKm > 0 && levelRpm === null) levelRpm = slipRpm;
    if (faultKm > 0 || day % QUIET_DAYS_PER_STEP === 0) {
      const ambient = day <= plan.endDay ? weather.meanC(day) : weather.normalC(day);
      ({ heatMjPerKm, fluidC } = measureDay(platform, build, state, points, ambient));
    }
    wear.advance(km, faultKm, heatMjPerKm, fluidC);
    const before = slipRpm;
    if (faultKm > 0 || (record && inWindow)) slipRpm = referenceSlipRpm(platform, build, state);
    if (record && inWindow) run.eveningRpm[day - plan.windowDay] = slipRpm;
    const kmWhenPassing = (level: number) => {
      const start = Math.max(fromKm, fault.startKm);
      if (isStep(fault)) return start;
      return start + Math.max(0, (level - before) / (slipRpm - before)) * (fromKm + km - start);
    };
    if (levelRpm !== null && run.onsetKm === null && slipRpm >= levelRpm + ONSET_RISE_RPM)
      run.onsetKm = kmWhenPassing(levelRpm + ONSET_RISE_RPM);
    if (run.crossingKm === null && slipRpm >= platform.limitRpm)
      run.crossingKm = kmWhenPassing(platform.limitRpm);
    if (record && inWindow && fromKm + km - seriesKm >= SERIES_KM) {
      seriesKm = fromKm + km;
      run.series.push([round(seriesKm, 1), round(slipRpm, 2)]);
    }
    if (run.crossingKm !== null && (day > plan.endDay || !record)) break;
  }
  return run;
}

/** Faults that are there from one moment to the next. */
export const isStep = (fault: Fault): boolean => fault.valveLoss > 0 || fault.broken > 0;

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

/** Moves the start of the fault until its crossing of the limit falls on `crossingKm`. */
export function placeCrossing(setting: LifeSetting, crossingKm: number, spanKm: number): void {
  const { fault } = setting;
  fault.startKm = crossingKm - spanKm;
  if (isStep(fault)) {
    fault.startKm = crossingKm;
    return;
  }
  for (let i = 0; i < 4; i++) {
    const reached = runLife(setting, false).crossingKm;
    fault.startKm += reached === null ? -0.3 * spanKm : crossingKm - reached;
  }
}
