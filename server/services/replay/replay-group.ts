import type { Database } from '#db/client.ts';
import { MOST_LEARNED, takeEvenly } from '#server/engine/platform/take-evenly.ts';
import { type CodeBook, readCodeBook } from '#server/services/codes/code-book.ts';
import { finishBatch, type GoneThrough, learnWithHindsight } from './finish-batch.ts';
import { type LifeAt, learnAsThen } from './learn-as-then.ts';
import { lookAtDay } from './look-at-day.ts';
import type { PlatformGroup, ReplayPlan } from './replay-plan.ts';
import type { ReplayedVehicle } from './replayed-vehicle.ts';
import { feedBatch, startBatch } from './start-batch.ts';

/** Vehicles that are followed in one go, once what they have in common is learned. */
const BATCH = 200;

export interface GroupWatch {
  /** one more day of so many vehicles */
  done: (vehicleDays: number) => void;
  lifeAt: LifeAt;
}

/**
 * Runs the vehicles of one platform again, day by day. First those are followed that the platform is learned from, then the
 * others in batches, with what was learned on each day.
 */
export async function replayGroup(
  db: Database,
  plan: ReplayPlan,
  group: PlatformGroup,
  { done, lifeAt }: GroupWatch,
): Promise<ReplayedVehicle[]> {
  const learners = takeEvenly(group.members, MOST_LEARNED);
  const isLearner = new Set(learners);
  const others = group.asked.filter((key) => !isLearner.has(key));
  const batches = [learners];
  for (let from = 0; from < others.length; from += BATCH) batches.push(others.slice(from, from + BATCH));
  const work = { db, plan, group, done, book: await readCodeBook(db), learning: learnAsThen(group, lifeAt) };
  const gone: GoneThrough[][] = [];
  for (const keys of batches) gone.push(await goThrough(work, keys, keys === learners));
  const context = await learnWithHindsight(db, group);
  const replayed: ReplayedVehicle[] = [];
  for (const batch of gone) replayed.push(...(await finishBatch(db, group, batch, context, plan.dayEndMs)));
  return replayed;
}

interface Work {
  db: Database;
  plan: ReplayPlan;
  group: PlatformGroup;
  done: GroupWatch['done'];
  book: CodeBook;
  learning: ReturnType<typeof learnAsThen>;
}

async function goThrough(
  { db, plan, group, done, book, learning }: Work,
  keys: readonly number[],
  learns: boolean,
): Promise<GoneThrough[]> {
  const batch = await startBatch(db, plan, group, keys);
  const lookedAt = batch.filter(({ isAsked }) => isAsked);
  for (const [day, dayEndMs] of plan.dayEndMs.entries()) {
    await feedBatch(db, plan, batch, day);
    for (const one of batch) {
      const { fresh, isNew } = one.followed.comeTo(dayEndMs);
      one.isNew ||= isNew;
      one.scores.take(fresh);
    }
    const lookAtAll = () => {
      const learned = learning.on(day);
      const { platform } = group;
      for (const one of lookedAt)
        lookAtDay(one, { day, dayEndMs, platform, learned, book, horizonKm: plan.request.horizon_km });
    };
    if (learns) await learning.learnIfDue(batch, day, dayEndMs);
    lookAtAll();
    if (learns && (await learning.learnIfMoved(batch, day, dayEndMs))) lookAtAll();
    done(lookedAt.length);
  }
  return lookedAt.map(({ vehicle, facts, days, readings, late, loaded }) => {
    return { vehicle, facts, days, readings, late, loaded };
  });
}
