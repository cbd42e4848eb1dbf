import { ensureReadingMonths } from '#db/partitions.ts';
import { dropEmptyMonths } from '#db/queries/upkeep/drop-empty-months.ts';
import { listReadingMonths } from '#db/queries/upkeep/list-reading-months.ts';
import { recordUpkeep, type UpkeepRun } from '#db/queries/upkeep/upkeep-runs.ts';
import type { UpkeepStep } from '#db/schema/upkeep.ts';
import type { Context } from '#server/services/context.ts';
import { forgetRecords } from './forget-records.ts';
import { keepReadings } from './keep-readings.ts';
import { listCurrentMonths } from './months.ts';
import { settleMonths } from './settle-months.ts';
import type { UpkeepLimits } from './upkeep-limits.ts';

/**
 * The upkeep of storage, once: makes months ahead, drops those past retention and empty ones, takes out records that have
 * had their end, puts months that are over in order. A step that fails is told and keeps no other from being done. Null
 * where another process does it at the moment.
 */
export function runUpkeep(
  ctx: Context,
  limits: UpkeepLimits,
  signal: AbortSignal,
): Promise<UpkeepRun | null> {
  const work: Record<UpkeepStep['step'], () => Promise<string[]>> = {
    make_ahead: () => makeAhead(ctx),
    drop_old: () => keepReadings(ctx, limits.keepReadingsMonths),
    drop_empty: () => dropEmptyMonths(ctx.db, new Set(listCurrentMonths(ctx.now()))),
    forget: () => forgetRecords(ctx, limits, signal),
    settle: () => settleMonths(ctx, signal),
  };
  return recordUpkeep(ctx.db, ctx.now, async () => {
    const steps: UpkeepStep[] = [];
    for (const step of Object.keys(work) as UpkeepStep['step'][]) {
      if (signal.aborted) break;
      const started = performance.now();
      const outcome = await work[step]().then(
        (done) => ({ done, fault: null }),
        (error: unknown) => {
          if (!signal.aborted) ctx.log.warn({ err: error, step }, 'a step of the upkeep was put off');
          return { done: [], fault: sayFault(error) };
        },
      );
      steps.push({ step, ...outcome, ms: Math.round(performance.now() - started) });
    }
    const isWhole = steps.every(({ fault }) => fault === null);
    return { state: signal.aborted ? 'stopped' : isWhole ? 'done' : 'failed', steps };
  });
}

async function makeAhead({ db, now }: Context): Promise<string[]> {
  const known = new Set((await listReadingMonths(db)).map(({ month }) => month));
  const wanted = listCurrentMonths(now()).filter((month) => !known.has(month));
  await ensureReadingMonths(db, wanted);
  return wanted;
}

const LONGEST_FAULT = 300;

/** In the words of the database, for whoever runs it. */
function sayFault(error: unknown): string {
  if (!(error instanceof Error)) return String(error).slice(0, LONGEST_FAULT);
  const cause = error.cause instanceof Error ? error.cause : error;
  if ('code' in cause && cause.code === '55P03')
    return 'Others were using the table for too long; it is tried again.';
  return cause.message.slice(0, LONGEST_FAULT);
}
