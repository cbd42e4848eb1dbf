import type { Database } from '#db/client.ts';
import { CODE_DAYS } from '#db/queries/read-assessed-vehicles.ts';
import { readReplayGuards, readReplayReadings } from '#db/queries/read-replay-readings.ts';
import { readReplayStretches, readReplayTotals } from '#db/queries/read-replay-stretches.ts';
import { type ReplayVehicle, readReplayVehicles } from '#db/queries/read-replay-vehicles.ts';
import { assessVehicle } from '#server/engine/assessment/assess-vehicle.ts';
import type { VehicleAssessment } from '#server/engine/assessment/assessment-model.ts';
import type { LifeHazard } from '#server/engine/life/platform-life.ts';
import { learnPlatform } from '#server/engine/platform/learn-platform.ts';
import { type PlatformContext, unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { MOST_LEARNED, takeEvenly } from '#server/engine/platform/take-evenly.ts';
import { expectAvoidedCost } from '#server/engine/ranking/expect-avoided-cost.ts';
import { staysCalm } from '#server/engine/ranking/stays-calm.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { toAssessmentInput } from '#server/services/assessment/assessment-input.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import { type CodeBook, readCodeBook } from '#server/services/codes/code-book.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { numberLives } from '#server/services/stretches/number-lives.ts';
import { tellArrival } from './arrival.ts';
import { type DayTable, newDayTable } from './day-columns.ts';
import { type FollowedVehicle, followVehicle, GUARD, readingsFromMs, stepAt } from './follow-vehicle.ts';
import { groupByVehicle } from './group-by-vehicle.ts';
import { followPlainScores } from './plain-scores.ts';
import { DAY_MS, LEARN_DAYS, LEARN_MORE, type PlatformGroup, type ReplayPlan } from './replay-plan.ts';
import { tellCourses, type VehicleCourses } from './tell-courses.ts';

/** Readings are read ahead for so many days. */
const CHUNK_DAYS = 28;
/** Vehicles that are followed in one go, once what they have in common is learned. */
const BATCH = 200;

/** One vehicle run again: its days, and how its lives went with hindsight. */
export interface ReplayedVehicle extends VehicleCourses {
  vehicle: number;
  unit: string;
  platform: string | null;
  depot: string | null;
  days: DayTable;
  /** readings of the period */
  readings: number;
  late: number;
  loaded: number;
}

export interface GroupWatch {
  /** one more day of so many vehicles */
  done: (vehicleDays: number) => void;
  /** the life of the platform's converters as it could be fitted then; null for the expected one */
  lifeAt: (platform: string, dayEndMs: number) => Promise<LifeHazard | null>;
}

/** What was learned on a day, good until the next. */
interface Learned {
  day: number;
  context: PlatformContext;
  life: LifeHazard | null;
  /** days that the readings of its vehicles spanned, summed */
  vehicleDays: number;
}

/**
 * Runs the vehicles of one platform again, day by day. First those are followed that the platform is learned from, then the
 * others in batches, with what was learned on each day.
 */
export async function replayGroup(
  db: Database,
  plan: ReplayPlan,
  group: PlatformGroup,
  watch: GroupWatch,
): Promise<ReplayedVehicle[]> {
  const book = await readCodeBook(db);
  const learners = takeEvenly(group.members, MOST_LEARNED);
  const learned: Learned[] = [];
  const followed = new Set(learners);
  const replayed = await replayBatch({ db, plan, group, watch, book, learned }, learners, true);
  const others = group.asked.filter((key) => !followed.has(key));
  for (let from = 0; from < others.length; from += BATCH)
    replayed.push(
      ...(await replayBatch(
        { db, plan, group, watch, book, learned },
        others.slice(from, from + BATCH),
        false,
      )),
    );
  return replayed;
}

interface Work {
  db: Database;
  plan: ReplayPlan;
  group: PlatformGroup;
  watch: GroupWatch;
  book: CodeBook;
  learned: Learned[];
}

async function replayBatch(work: Work, keys: readonly number[], learns: boolean): Promise<ReplayedVehicle[]> {
  const { db, plan, group, watch, learned } = work;
  const asked = new Set(group.asked);
  const batch = await startBatch(work, keys, asked);
  const lookedAt = batch.filter(({ isAsked }) => isAsked);
  for (const [day, dayEndMs] of plan.dayEndMs.entries()) {
    if (day % CHUNK_DAYS === 0) {
      const untilMs = plan.dayEndMs[Math.min(day + CHUNK_DAYS, plan.dayEndMs.length) - 1] ?? dayEndMs;
      const readings = await readReplayReadings(
        db,
        batch.map(({ vehicle, fromMs }) => ({ vehicle, fromMs })),
        untilMs,
      );
      const own = groupByVehicle(readings);
      for (const one of batch) {
        one.followed.feed(own.get(one.vehicle) ?? []);
        countArrivals(one, own.get(one.vehicle) ?? [], plan);
        one.followed.trim(day === 0 ? plan.fromMs : dayEndMs - DAY_MS);
        one.fromMs = untilMs;
      }
    }
    for (const one of batch) {
      const { fresh, isNew } = one.followed.comeTo(dayEndMs);
      one.isNew ||= isNew;
      one.scores.take(fresh);
    }
    if (learns) await learnIfDue(work, batch, day, dayEndMs, false);
    const lookAtAll = () => {
      const now = learned.findLast((one) => one.day <= day) ?? null;
      for (const one of lookedAt) lookAt(work, one, day, dayEndMs, now);
    };
    lookAtAll();
    // The program learns daily. Where many rise at once, what they have in common has moved, and a week is too long to wait.
    if (
      learns &&
      learned.at(-1)?.day !== day &&
      countNewlyRisen(lookedAt, day) >= mostAtOnce(lookedAt.length)
    ) {
      await learnIfDue(work, batch, day, dayEndMs, true);
      lookAtAll();
    }
    watch.done(lookedAt.length);
  }
  return finishBatch(work, lookedAt);
}

/** So many vehicles that begin to rise on one day did not do so by chance. Own choice. */
const mostAtOnce = (vehicles: number): number => Math.max(3, 0.02 * vehicles);

function countNewlyRisen(batch: readonly InBatch[], day: number): number {
  if (day === 0) return 0;
  const isRisen = ({ p, moving }: DayTable, on: number) => (p[on] ?? 1) < 0.05 && (moving[on] ?? 0) > 0.5;
  return batch.filter(({ days }) => isRisen(days, day) && !isRisen(days, day - 1)).length;
}

interface InBatch {
  vehicle: number;
  facts: ReplayVehicle;
  followed: FollowedVehicle;
  scores: ReturnType<typeof followPlainScores>;
  days: DayTable;
  isAsked: boolean;
  fromMs: number;
  /** since the last assessment */
  isNew: boolean;
  assessed: { found: VehicleAssessment; by: Learned | null; with: string } | null;
  readings: number;
  late: number;
  loaded: number;
}

async function startBatch(
  { db, plan, group }: Work,
  keys: readonly number[],
  asked: ReadonlySet<number>,
): Promise<InBatch[]> {
  const settings = toEngineSettings(group.platform);
  const [vehicles, rows, totals] = await Promise.all([
    readReplayVehicles(db, keys),
    readReplayStretches(db, keys),
    readReplayTotals(db, keys),
  ]);
  const rowsOf = groupByVehicle(rows);
  const totalsOf = groupByVehicle(totals);
  const starts = vehicles.map(({ vehicle }) => ({
    vehicle,
    fromMs: readingsFromMs(totalsOf.get(vehicle) ?? [], plan.fromMs),
  }));
  const guards = groupByVehicle(await readReplayGuards(db, starts, GUARD));
  return vehicles.map((facts, i) => {
    const { vehicle } = facts;
    const fromMs = starts[i]?.fromMs ?? plan.fromMs;
    const stored = { rows: rowsOf.get(vehicle) ?? [], totals: totalsOf.get(vehicle) ?? [] };
    const lifeAt = numberLives(facts.lives);
    return {
      vehicle,
      facts,
      followed: followVehicle(facts, stored, guards.get(vehicle) ?? [], fromMs, { ...settings, lifeAt }),
      scores: followPlainScores(settings.gate, ({ odometerKm, atMs }) =>
        lifeAt(odometerKm + stepAt(facts, atMs)),
      ),
      days: newDayTable(plan.dayEndMs.length),
      isAsked: asked.has(vehicle),
      fromMs,
      isNew: true,
      assessed: null,
      readings: 0,
      late: 0,
      loaded: 0,
    };
  });
}

function countArrivals(
  one: InBatch,
  readings: Parameters<FollowedVehicle['feed']>[0],
  { fromMs }: ReplayPlan,
): void {
  for (const reading of readings) {
    if (reading.atMs < fromMs) continue;
    const arrival = tellArrival(reading, one.facts);
    one.readings++;
    if (arrival === 'late') one.late++;
    if (arrival === 'loaded') one.loaded++;
  }
}

/** Learns what the vehicles have in common where a week has passed since, or where their history has grown by a tenth. */
async function learnIfDue(
  { group, watch, learned }: Work,
  batch: readonly InBatch[],
  day: number,
  dayEndMs: number,
  atOnce: boolean,
): Promise<void> {
  const known = batch.flatMap(({ facts, followed }) => {
    const lastMs = followed.lastReadingMs();
    return lastMs === null
      ? []
      : [{ days: Math.max(0, (lastMs - facts.firstReadingMs) / DAY_MS), rows: followed.stretches() }];
  });
  const vehicleDays = known.reduce((sum, { days }) => sum + days, 0);
  const last = learned.at(-1);
  const isDue =
    atOnce ||
    last === undefined ||
    day - last.day >= LEARN_DAYS ||
    vehicleDays > LEARN_MORE * last.vehicleDays + 1;
  if (!isDue || known.length === 0) return;
  const life = group.platform === null ? null : await watch.lifeAt(group.platform.id, dayEndMs);
  const rows = known.map((one) => one.rows).filter((one) => one.length > 0);
  const context = learnPlatform(rows, toEngineSettings(group.platform, life));
  learned.push({ day, context, life, vehicleDays });
}

/** Assesses a vehicle where something is new, and writes its day down. */
function lookAt(
  { plan, group, book }: Work,
  one: InBatch,
  day: number,
  dayEndMs: number,
  learned: Learned | null,
): void {
  const facts = one.followed.facts(dayEndMs);
  if (facts === null || facts.lastReadingAt === null) return;
  // Where nobody wrote down when a vehicle was retired, it leaves the list with its last reading.
  if (one.facts.retired && dayEndMs > (one.facts.retiredMs ?? one.facts.lastReadingMs + DAY_MS)) return;
  const settings = toEngineSettings(group.platform, learned?.life ?? null);
  const hasPlatform = group.platform !== null;
  const knownWith = JSON.stringify([facts.lives, facts.repair]);
  if (one.isNew || one.assessed === null || one.assessed.by !== learned || one.assessed.with !== knownWith) {
    const input = toAssessmentInput(facts, one.followed.stretches(), book, dayEndMs, hasPlatform);
    const context = learned?.context ?? unknownPlatform;
    const found = assessVehicle(input, settings, context, DEFAULT_HORIZON_KM, [plan.request.horizon_km]);
    one.assessed = { found, by: learned, with: knownWith };
    one.isNew = false;
  }
  const { found } = one.assessed;
  const codes = found.codes.length;
  const nowKm = (facts.odometerKm ?? 0) + facts.offsetKm;
  const quietDays = Math.floor((dayEndMs - facts.lastReadingAt.getTime()) / DAY_MS);
  const set = (column: keyof DayTable, value: number | null) => {
    one.days[column][day] = value ?? Number.NaN;
  };
  set('p', found.p);
  set('moving', found.drifting + found.stepping);
  set('soonChance', Math.max(found.chancePastLimit, found.chanceSoon));
  set('chance', found.chanceWithinHorizon);
  set('suddenChance', found.suddenChance);
  set('levelRpm', found.levelRpm);
  set('baselineRpm', found.baseline?.estimate ?? null);
  set('codes', codes);
  set('isThin', Number(found.missing.some(({ kind }) => kind === 'few_stretches' || kind === 'no_usable')));
  set('quietDays', quietDays);
  set('isCalm', Number(isCalm(one, found, facts, settings.limitRpm, dayEndMs)));
  set('statedChance', expectAvoidedCost(found.chances[0]?.[1] ?? 0, codes, settings).chance);
  set('km', nowKm);
  const life = one.followed.lifeAt(nowKm);
  set('life', life);
  const { levelPct, riseRpm } = one.scores.look(dayEndMs, settings.limitRpm, life);
  set('levelPct', levelPct);
  set('riseRpm', riseRpm);
}

/** Whether the word of a shop kept the list calm then, as `find-calms.ts` has it for now. */
function isCalm(
  { facts: vehicle }: InBatch,
  found: VehicleAssessment,
  { odometerKm, offsetKm }: { odometerKm: number | null; offsetKm: number },
  limitRpm: number,
  dayEndMs: number,
): boolean {
  const last = vehicle.packets.findLast(({ closedMs }) => closedMs < dayEndMs);
  if (last === undefined || last.calmUntilKm === null) return false;
  const knownCodes = last.codes.filter(({ lastMs }) => lastMs > last.openedMs - CODE_DAYS * DAY_MS);
  const hasNewCode = found.codes.some(({ code }) => !knownCodes.some((known) => known.code === code));
  const nowKm = odometerKm === null ? null : odometerKm + offsetKm - stepAt(vehicle, last.workMs);
  return staysCalm(
    { nowKm, levelRpm: found.levelRpm, limitRpm, hasNewCode },
    { untilKm: last.calmUntilKm, slipRpm: last.calmSlipRpm },
  );
}

/** How the lives went, from all stretches at the reference point that are stored by now, learned from with hindsight. */
async function finishBatch({ db, group, plan }: Work, batch: readonly InBatch[]): Promise<ReplayedVehicle[]> {
  const settings = toEngineSettings(group.platform);
  const keys = takeEvenly(group.members, MOST_LEARNED);
  const rows = groupByVehicle(await readReplayStretches(db, keys, REFERENCE_BAND));
  const missing = batch.map(({ vehicle }) => vehicle).filter((key) => !rows.has(key));
  const context = learnPlatform([...rows.values()], settings);
  const others = groupByVehicle(await readReplayStretches(db, missing, REFERENCE_BAND));
  return batch.map(({ vehicle, facts, days, readings, late, loaded }) => ({
    vehicle,
    unit: facts.unit,
    platform: facts.platform,
    depot: facts.depot,
    days,
    readings,
    late,
    loaded,
    ...tellCourses(
      facts,
      rows.get(vehicle) ?? others.get(vehicle) ?? [],
      settings,
      context,
      plan.dayEndMs,
      days.km,
    ),
  }));
}
