import { type Line, type LineCounts, sendOff } from './arrivals.ts';
import { buildFleet, type Fleet } from './build-fleet.ts';
import { DAY_MS, dayOf } from './calendar.ts';
import { drawDayEffect, toReading } from './gateway.ts';
import { sampleDay } from './sample-day.ts';
import type { Scenario } from './scenario.ts';
import { describeSetUp, type SetUp } from './set-up.ts';
import { describeTruth, type Truth } from './truth.ts';
import { isSending, lifeOn, stateOn, type Vehicle } from './vehicle.ts';

interface Slice {
  day: number;
  /** share of the window done, 0 to 1 */
  done: number;
  lines: Line[];
}

export interface Simulation {
  setUp: SetUp;
  /** counts in it are complete once the slices have been read to the end */
  truth: Truth;
  /** lines day by day in order of arrival; may be read once */
  slices(): Generator<Slice>;
}

/** The whole scenario: set-up, truth, and the readings as a stream whose memory does not grow with time. */
export function simulateFleet(scenario: Scenario): Simulation {
  const fleet = buildFleet(scenario);
  const truth = describeTruth(fleet);
  return { setUp: describeSetUp(fleet), truth, slices: () => streamSlices(fleet, truth.counts) };
}

function* streamSlices(fleet: Fleet, counts: LineCounts): Generator<Slice> {
  const { windowDay, endDay, endMs } = fleet.window;
  const pending = new Map<number, Line[]>();
  for (let day = windowDay; day <= endDay; day++) {
    for (const vehicle of fleet.vehicles) {
      for (const line of sendDay(fleet, vehicle, day)) {
        const arrivalDay = dayOf(line.arrivesMs);
        const queue = pending.get(arrivalDay);
        if (queue === undefined) pending.set(arrivalDay, [line]);
        else queue.push(line);
      }
    }
    const arrived = (pending.get(day) ?? []).filter((line) => line.arrivesMs <= endMs);
    pending.delete(day);
    arrived.sort((one, other) => one.arrivesMs - other.arrivesMs);
    countLines(arrived, counts);
    yield { day, done: (day - windowDay + 1) / (endDay - windowDay + 1), lines: arrived };
  }
}

function sendDay(fleet: Fleet, vehicle: Vehicle, day: number): Line[] {
  if (!isSending(vehicle, day)) return [];
  const { disorder } = fleet.scenario;
  const { random } = vehicle;
  const moments = sampleDay(vehicle, day, random);
  if (moments.length === 0) return [];
  const life = lifeOn(vehicle, day);
  const state = life === undefined ? undefined : stateOn(vehicle, life, day);
  const effect = drawDayEffect(random);
  const readings: { atMs: number; reading: Line['reading'] }[] = [];
  for (const moment of moments) {
    const atMs = day * DAY_MS + moment.msOfDay;
    if (atMs > fleet.window.endMs) break;
    readings.push({ atMs, reading: toReading(vehicle, day, moment, effect, state, disorder.glitchShare) });
  }
  return sendOff(readings, vehicle.gateway, disorder, random);
}

function countLines(lines: readonly Line[], counts: LineCounts): void {
  counts.lines += lines.length;
  for (const { fate } of lines) {
    if (fate === 'new') counts.stored++;
    else if (fate === 'refused') counts.refused++;
    else {
      counts.duplicate++;
      if (fate === 'conflicting') counts.conflicting++;
    }
  }
}
