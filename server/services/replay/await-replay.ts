import { setTimeout as sleep } from 'node:timers/promises';
import { eq } from 'drizzle-orm';
import { replays } from '#db/schema/life-data.ts';
import type { Replay } from '#server/contract/replay.ts';
import type { Context } from '#server/services/context.ts';
import { getReplay } from './stored-replay.ts';

const LOOK_MS = 200;
const LONGEST_MS = 600_000;

/** The replay once it has ended, whichever program runs it; as it stands after ten minutes, or once nobody waits. */
export async function awaitReplay(ctx: Context, id: number, signal: AbortSignal): Promise<Replay> {
  const untilMs = performance.now() + LONGEST_MS;
  while (!signal.aborted && performance.now() < untilMs) {
    const [row] = await ctx.db.select({ state: replays.state }).from(replays).where(eq(replays.id, id));
    if (row === undefined || (row.state !== 'waiting' && row.state !== 'running')) break;
    await sleep(LOOK_MS);
  }
  return getReplay(ctx, id);
}
