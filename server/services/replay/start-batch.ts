import type { Database } from '#db/client.ts';
import {
  type ReplayReading,
  readReplayGuards,
  readReplayReadings,
} from '#db/queries/read-replay-readings.ts';
import { readReplayTotals, readStretchesBegun } from '#db/queries/read-replay-stretches.ts';
import { type ReplayVehicle, readReplayVehicles } from '#db/queries/read-replay-vehicles.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { numberLives } from '#server/services/stretches/number-lives.ts';
import { tellArrival } from './arrival.ts';
import { type DayTable, newDayTable } from './day-columns.ts';
import {
  type FollowedVehicle,
  followVehicle,
  GUARD,
  readingsFromMs,
  type StoredStretches,
  stepAt,
} from './follow-vehicle.ts';
import { groupByVehicle } from './group-by-vehicle.ts';
import type { Assessed } from './look-at-day.ts';
import { followPlainScores } from './plain-scores.ts';
import { DAY_MS, type PlatformGroup, type ReplayPlan } from './replay-plan.ts';

/** Readings are read ahead for so many days. */
const CHUNK_DAYS = 28;

/** A vehicle while its days are gone through. */
export interface InBatch {
  vehicle: number;
  facts: ReplayVehicle;
  followed: FollowedVehicle;
  scores: ReturnType<typeof followPlainScores>;
  days: DayTable;
  isAsked: boolean;
  /** from where its readings are to be read */
  fromMs: number;
  /** since the last assessment */
  isNew: boolean;
  assessed: Assessed | null;
  readings: number;
  late: number;
  loaded: number;
}

export async function startBatch(
  db: Database,
  plan: ReplayPlan,
  { platform, asked }: PlatformGroup,
  keys: readonly number[],
): Promise<InBatch[]> {
  const settings = toEngineSettings(platform);
  const [vehicles, totals] = await Promise.all([readReplayVehicles(db, keys), readReplayTotals(db, keys)]);
  const totalsOf = groupByVehicle(totals);
  const starts = vehicles.map(({ vehicle }) => ({
    vehicle,
    fromMs: readingsFromMs(totalsOf.get(vehicle) ?? [], plan.fromMs),
  }));
  const begun = vehicles.map(({ vehicle, firstStoredMs }, i) => ({
    vehicle,
    beforeMs: firstStoredMs === null ? null : Math.max(firstStoredMs, starts[i]?.fromMs ?? plan.fromMs),
  }));
  const [rows, guards] = await Promise.all([
    readStretchesBegun(db, begun),
    readReplayGuards(db, starts, GUARD),
  ]);
  const [rowsOf, guardsOf, isAsked] = [groupByVehicle(rows), groupByVehicle(guards), new Set(asked)];
  const batch: InBatch[] = [];
  for (const [i, facts] of vehicles.entries()) {
    const { vehicle } = facts;
    const stored = { rows: rowsOf.get(vehicle) ?? [], totals: totalsOf.get(vehicle) ?? [] };
    const start = { stored, guard: guardsOf.get(vehicle) ?? [], fromMs: starts[i]?.fromMs ?? plan.fromMs };
    batch.push(begin(facts, start, settings, plan.dayEndMs.length, isAsked.has(vehicle)));
  }
  return batch;
}

/** Beside the batch, since its functions live as long as the vehicle, and would keep all that was read for the others. */
function begin(
  facts: ReplayVehicle,
  { stored, guard, fromMs }: VehicleStart,
  settings: ReturnType<typeof toEngineSettings>,
  days: number,
  isAsked: boolean,
): InBatch {
  const lifeAt = numberLives(facts.lives);
  return {
    vehicle: facts.vehicle,
    facts,
    followed: followVehicle(facts, stored, guard, fromMs, { ...settings, lifeAt }),
    scores: followPlainScores(settings.gate, ({ odometerKm, atMs }) =>
      lifeAt(odometerKm + stepAt(facts, atMs)),
    ),
    days: newDayTable(days),
    isAsked,
    fromMs,
    isNew: true,
    assessed: null,
    readings: 0,
    late: 0,
    loaded: 0,
  };
}

/** What one vehicle begins with. */
interface VehicleStart {
  stored: StoredStretches;
  guard: readonly ReplayReading[];
  fromMs: number;
}

/** Reads ahead what the next days need, where it is time to. */
export async function feedBatch(
  db: Database,
  plan: ReplayPlan,
  batch: readonly InBatch[],
  day: number,
): Promise<void> {
  if (day % CHUNK_DAYS !== 0) return;
  const last = Math.min(day + CHUNK_DAYS, plan.dayEndMs.length) - 1;
  const untilMs = plan.dayEndMs[last] ?? plan.fromMs;
  const from = batch.map(({ vehicle, fromMs }) => ({ vehicle, fromMs }));
  const own = groupByVehicle(await readReplayReadings(db, from, untilMs));
  for (const one of batch) {
    const readings = own.get(one.vehicle) ?? [];
    one.followed.feed(readings);
    countArrivals(one, readings, plan);
    one.followed.trim(day === 0 ? plan.fromMs : (plan.dayEndMs[day] ?? 0) - DAY_MS);
    one.fromMs = untilMs;
  }
}

function countArrivals(one: InBatch, readings: readonly ReplayReading[], { fromMs }: ReplayPlan): void {
  for (const reading of readings) {
    if (reading.atMs < fromMs) continue;
    const arrival = tellArrival(reading, one.facts);
    one.readings++;
    if (arrival === 'late') one.late++;
    if (arrival === 'loaded') one.loaded++;
  }
}
