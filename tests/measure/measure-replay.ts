import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { openDatabase } from '#db/client.ts';
import { attachEmbedded } from '#db/embedded/attach-embedded.ts';
import type { Truth, TruthVehicle } from '#demo-fleet/truth.ts';
import { type Replay, type ReplayResult, replay, replayRequest } from '#server/contract/replay.ts';
import { makePlan } from '#server/services/replay/make-plan.ts';
import { dayOf } from '#server/services/replay/replay-plan.ts';
import type { ReplayedVehicle } from '#server/services/replay/replayed-vehicle.ts';
import { concludeReplay, replayVehicles } from '#server/services/replay/run-replay.ts';
import { signInToDemo } from '#tests/helpers/sign-in-demo.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { startProgram } from './start-program.ts';

/**
 * `npm run measure:replay`: the last 182 days of a demo of its own, run again over the interface and timed; then once more
 * here, to be judged by what the simulation knows beside what the fleet's records tell. `--days 30` for fewer.
 */
const DAY_MS = 86_400_000;
const at = process.argv.indexOf('--days');
const days = at === -1 ? 182 : Number(process.argv[at + 1]);
const say = (line: string) => process.stdout.write(`${line}\n`);

const folder = makeTemporaryFolder();
const demo = await startProgram(['demo', '--fresh', '--port', '0'], join(folder, 'data'));
try {
  const truth: Truth = JSON.parse(readFileSync(join(folder, 'data', 'demo', 'truth.json'), 'utf8'));
  const to = dayOf(Date.parse(truth.end));
  const request = { from: dayOf(Date.parse(to) - (days - 1) * DAY_MS), to, horizon_km: 5_000 };
  const timed = await runOverInterface(request);
  say(
    `${timed.progress.of} vehicle days in ${timed.seconds} s; peak memory ${demo.peakMiB().toFixed(0)} MiB`,
  );

  const url = await attachEmbedded(join(folder, 'data', 'demo'));
  if (url === null) throw new Error('the demo has no storage of its own');
  const { db, close } = openDatabase(url, { connections: 2 });
  const plan = await makePlan({ db }, replayRequest.parse(request), null);
  const startedS = process.cpuUsage().user / 1e6;
  const replayed = await replayVehicles(db, plan, () => {});
  say(`one thread: ${(process.cpuUsage().user / 1e6 - startedS).toFixed(0)} s of processor time`);
  const byRecord = await concludeReplay(db, plan, replayed);
  const units = new Map(truth.vehicles.map((one) => [one.unit, one]));
  const byTruth = await concludeReplay(
    db,
    plan,
    replayed.map((one) => asTruthHasIt(one, units.get(one.unit), plan.fromMs, plan.dayEndMs)),
  );
  await close();
  if (JSON.stringify(byRecord.scores) !== JSON.stringify(timed.result?.scores))
    say('THE TWO RUNS DIFFER: scores over the interface are others than here.');
  tellScores(byRecord, byTruth);
  tellDifferences(byRecord, byTruth, units);
} finally {
  await demo.stop();
  rmSync(folder, { recursive: true, force: true });
}

async function runOverInterface(request: object): Promise<Replay> {
  const { ask } = await signInToDemo(demo.url, 'analyst');
  const asked = await ask('/api/analysis/replay?wait=0', 'POST', request);
  const { id } = replay.parse(await asked.json());
  let slowestMs = 0;
  for (;;) {
    const startedMs = performance.now();
    await fetch(`${demo.url}/health/live`);
    slowestMs = Math.max(slowestMs, performance.now() - startedMs);
    const found = replay.parse(await (await ask(`/api/analysis/replays/${id}`)).json());
    if (found.state === 'done') {
      say(`slowest other answer meanwhile ${slowestMs.toFixed(0)} ms`);
      return found;
    }
    if (found.state !== 'waiting' && found.state !== 'running')
      throw new Error(`the replay is ${found.state}: ${found.error}`);
    await new Promise((settle) => setTimeout(settle, 200));
  }
}

/** The same vehicle with the events of the simulation in the place of those on record. */
function asTruthHasIt(
  replayed: ReplayedVehicle,
  truth: TruthVehicle | undefined,
  fromMs: number,
  dayEndMs: readonly number[],
): ReplayedVehicle {
  const events = (truth?.lives ?? []).flatMap(({ crossingKm, removedKm, ended, faultKind }) => {
    const km = crossingKm ?? (ended === 'failed' ? removedKm : null);
    return km === null ? [] : [{ km, faultKind }];
  });
  let reachedKm = Number.NEGATIVE_INFINITY;
  const courses = replayed.courses
    .toSorted((a, b) => a.life - b.life)
    .map((course, i, all) => {
      const isLast = i === all.length - 1;
      const found = events.find(({ km }) => km > reachedKm && (isLast || km <= course.lastKm));
      reachedKm = course.lastKm;
      const risenShare = riseOf(truth, course.lastKm);
      if (found === undefined) return { ...course, risenShare, event: null };
      const atMs = momentAt(replayed.days.km, found.km, fromMs, dayEndMs);
      return {
        ...course,
        risenShare,
        event: { what: 'reached_limit' as const, mode: found.faultKind, km: found.km, atMs, knownMs: atMs },
      };
    });
  return { ...replayed, courses };
}

/** How far the noise-free slip has come from healthy to the limit where the life was seen last. */
function riseOf(truth: TruthVehicle | undefined, lastKm: number): number | null {
  const seen = truth?.series.filter(([km]) => km <= lastKm) ?? [];
  const [healthyRpm, lastRpm] = [Math.min(...seen.map(([, rpm]) => rpm)), seen.at(-1)?.[1]];
  if (truth === undefined || lastRpm === undefined) return null;
  return (lastRpm - healthyRpm) / (truth.limitRpm - healthyRpm);
}

function momentAt(km: Float64Array, eventKm: number, fromMs: number, dayEndMs: readonly number[]): number {
  const day = km.findIndex((one) => one >= eventKm);
  const known = km.findIndex((one) => !Number.isNaN(one));
  if (day === -1) return (dayEndMs.at(-1) ?? 0) + 30 * DAY_MS;
  if (day === known) return (dayEndMs[day] ?? fromMs) - DAY_MS * (day === 0 ? 2 : 0.5);
  return (dayEndMs[day] ?? 0) - DAY_MS / 2;
}

function tellScores(byRecord: ReplayResult, byTruth: ReplayResult): void {
  say('');
  say('| told by | way of asking | asked | found | missed | early | needless | undecided | notice, p50 |');
  say('| --- | --- | ---: | ---: | ---: | ---: | ---: | ---: |');
  for (const [name, { scores }] of [
    ['record', byRecord],
    ['truth', byTruth],
  ] as const)
    for (const one of scores) {
      const way = one.threshold === null ? one.rule : `${one.rule} from ${one.threshold.toFixed(1)}`;
      const notice = one.notice_km === null ? '-' : `${Math.round(one.notice_km.p50)} km`;
      say(
        `| ${name} | ${way} | ${one.asked} | ${one.found} | ${one.missed} | ${one.early} | ${one.needless} | ${one.undecided} | ${notice} |`,
      );
    }
  say('');
  for (const [name, { calibration }] of [
    ['record', byRecord],
    ['truth', byTruth],
  ] as const)
    for (const one of calibration)
      say(
        `by ${name}, stated ${one.from} to ${one.to}: ${one.n} looks at ${one.vehicles} vehicles, mean ${one.stated.toFixed(3)}, seen ${one.seen?.toFixed(3) ?? '-'} (${one.low?.toFixed(3) ?? '-'} to ${one.high?.toFixed(3) ?? '-'})`,
      );
}

/** Failures that only one of the two has. */
function tellDifferences(
  byRecord: ReplayResult,
  byTruth: ReplayResult,
  units: ReadonlyMap<string, TruthVehicle>,
): void {
  const names = (result: ReplayResult) => new Set(result.came.map(({ vehicle }) => vehicle));
  const [recorded, true_] = [names(byRecord), names(byTruth)];
  for (const [result, others, who] of [
    [byRecord, true_, 'record only'],
    [byTruth, recorded, 'truth only'],
  ] as const)
    for (const one of result.came.filter(({ vehicle }) => !others.has(vehicle))) {
      const truth = units.get(one.vehicle);
      say(
        `${who}: ${one.vehicle} ${one.what} ${one.mode ?? ''} on ${one.day} at ${Math.round(one.odometer_km)} km, list ${one.list === null ? 'missed it' : `${Math.round(one.list.notice_km)} km before`}; truth ${truth?.faultKind}, crossing ${truth?.crossingKm}, notes ${truth?.notes.join(', ') || 'none'}`,
      );
    }
  for (const one of byRecord.came)
    say(
      `came: ${one.vehicle} ${one.what} ${one.day}, first seen ${Math.round(one.first_seen_km)} km before, list ${one.list === null ? 'missed' : `${one.list.grade} ${Math.round(one.list.notice_km)} km`}`,
    );
  for (const one of byRecord.needless) say(`needless: ${one.vehicle} ${one.from} ${one.grade} ${one.why}`);
}
