import { and, desc, eq, type SQL, sql } from 'drizzle-orm';
import { replays } from '#db/schema/life-data.ts';
import type { Replay, ReplayList } from '#server/contract/replay.ts';
import { SlipdriftError } from '#server/errors.ts';
import { type Actor, senderOf } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';

type Row = typeof replays.$inferSelect;

const SHOWN = 50;

/** A replay is its asker's, as long as they see all its vehicles, and that of people and keys for all depots. */
function seenReplays(actor: Actor): SQL | undefined {
  if (actor.depots === null) return undefined;
  const depots = `{${actor.depots.map((one) => JSON.stringify(one)).join(',')}}`;
  return and(eq(replays.asker, senderOf(actor)), sql`${replays.depots} <@ ${depots}::text[]`);
}

const missing = (id: number) =>
  new SlipdriftError('not_found', `There is no replay ${id}, or it is not yours to see.`);

/** The newest replays, with the score of the list of each that is done. */
export async function listReplays({ db, actor }: Pick<Context, 'db' | 'actor'>): Promise<ReplayList> {
  const { result: _, ...columns } = replays;
  const rows = await db
    .select({
      id: columns.id,
      askedAt: columns.askedAt,
      askedBy: columns.askedBy,
      request: columns.request,
      state: columns.state,
      startedAt: columns.startedAt,
      endedAt: columns.endedAt,
      done: columns.done,
      of: columns.of,
      error: columns.error,
      score: sql<unknown>`${replays.result}->'scores'->0`,
    })
    .from(replays)
    .where(seenReplays(actor))
    .orderBy(desc(replays.askedAt), desc(replays.id))
    .limit(SHOWN);
  return {
    replays: rows.map(({ score, ...row }) => ({
      ...toLine(row),
      score: (score ?? null) as ReplayList['replays'][number]['score'],
    })),
  };
}

export async function getReplay({ db, actor }: Pick<Context, 'db' | 'actor'>, id: number): Promise<Replay> {
  const [row] = await db
    .select()
    .from(replays)
    .where(and(eq(replays.id, id), seenReplays(actor)));
  if (row === undefined) throw missing(id);
  return { ...toLine(row), result: (row.result ?? null) as Replay['result'] };
}

/** Ends a replay that waits or is run, or forgets one that has ended. */
export async function dropReplay(ctx: Context, id: number): Promise<void> {
  const { db, actor } = ctx;
  await db.transaction(async (transaction) => {
    const [row] = await transaction
      .select({ asker: replays.asker, askedBy: replays.askedBy, state: replays.state })
      .from(replays)
      .where(and(eq(replays.id, id), seenReplays(actor)))
      .for('update');
    if (row === undefined) throw missing(id);
    if (row.asker !== senderOf(actor) && actor.role !== null && actor.role !== 'admin')
      throw new SlipdriftError(
        'not_allowed',
        `Replay ${id} was asked for by ${row.askedBy}: they and admins can end or forget it. Nothing was changed.`,
      );
    if (row.state === 'waiting' || row.state === 'running')
      await transaction
        .update(replays)
        .set({ state: 'cancelled', endedAt: ctx.now() })
        .where(eq(replays.id, id));
    else await transaction.delete(replays).where(eq(replays.id, id));
  });
}

function toLine(
  row: Omit<Row, 'result' | 'asker' | 'depots' | 'aliveAt' | 'attempts'>,
): Omit<Replay, 'result'> {
  const { startedAt, endedAt } = row;
  const ended = row.state === 'waiting' || row.state === 'running' ? null : endedAt;
  return {
    id: row.id,
    state: row.state,
    asked_at: row.askedAt.toISOString(),
    asked_by: row.askedBy,
    ended_at: ended?.toISOString() ?? null,
    seconds:
      startedAt === null || ended === null
        ? null
        : Math.max(0, Math.round((ended.getTime() - startedAt.getTime()) / 100) / 10),
    progress: { done: row.done, of: row.of },
    request: row.request as Replay['request'],
    error: row.error,
  };
}
