import type { LifeHazard } from '#server/engine/life/platform-life.ts';
import { learnPlatform } from '#server/engine/platform/learn-platform.ts';
import type { PlatformContext } from '#server/engine/platform/platform-context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { DAY_MS, LEARN_DAYS, LEARN_MORE, type PlatformGroup } from './replay-plan.ts';
import type { InBatch } from './start-batch.ts';

/** What was learned on a day, good until the next. */
export interface Learned {
  day: number;
  context: PlatformContext;
  life: LifeHazard | null;
  /** days that the readings of its vehicles spanned, summed */
  vehicleDays: number;
}

/** The life of the platform's converters as it could be fitted then; null for the expected one. */
export type LifeAt = (platform: string, dayEndMs: number) => Promise<LifeHazard | null>;

/** What the vehicles of one platform were known to have in common, day by day. */
export function learnAsThen({ platform }: PlatformGroup, lifeAt: LifeAt) {
  const learned: Learned[] = [];

  async function learn(batch: readonly InBatch[], day: number, dayEndMs: number, atOnce: boolean) {
    const known = batch.filter(({ followed }) => followed.lastReadingMs() !== null);
    const vehicleDays = known.reduce(
      (sum, { facts, followed }) =>
        sum + Math.max(0, ((followed.lastReadingMs() ?? 0) - facts.firstReadingMs) / DAY_MS),
      0,
    );
    const last = learned.at(-1);
    const isDue =
      atOnce ||
      last === undefined ||
      day - last.day >= LEARN_DAYS ||
      vehicleDays > LEARN_MORE * last.vehicleDays + 1;
    if (!isDue || known.length === 0) return;
    const life = platform === null ? null : await lifeAt(platform.id, dayEndMs);
    const rows = known.map(({ followed }) => followed.stretches()).filter((own) => own.length > 0);
    learned.push({ day, context: learnPlatform(rows, toEngineSettings(platform, life)), life, vehicleDays });
  }

  return {
    /** What was known on a day; null before anything was. */
    on: (day: number): Learned | null => learned.findLast((one) => one.day <= day) ?? null,
    /** Where a week has passed since, or where the history has grown by a tenth. */
    learnIfDue: (batch: readonly InBatch[], day: number, dayEndMs: number) =>
      learn(batch, day, dayEndMs, false),
    /**
     * Where so many begin to rise on one day that it is not by chance; answers whether. The program learns daily, and what
     * they have in common has moved: a week is too long to wait.
     */
    async learnIfMoved(batch: readonly InBatch[], day: number, dayEndMs: number): Promise<boolean> {
      const lookedAt = batch.filter(({ isAsked }) => isAsked);
      if (learned.at(-1)?.day === day || countNewlyRisen(lookedAt, day) < mostAtOnce(lookedAt.length))
        return false;
      await learn(batch, day, dayEndMs, true);
      return true;
    },
  };
}

/** So many vehicles that begin to rise on one day did not do so by chance. Own choice. */
const mostAtOnce = (vehicles: number): number => Math.max(3, 0.02 * vehicles);

function countNewlyRisen(batch: readonly InBatch[], day: number): number {
  if (day === 0) return 0;
  return batch.filter((one) => isRisen(one, day) && !isRisen(one, day - 1)).length;
}

const isRisen = ({ days: { p, moving } }: InBatch, day: number): boolean =>
  (p[day] ?? 1) < 0.05 && (moving[day] ?? 0) > 0.5;
