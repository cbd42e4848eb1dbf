import { type Database, rawClient } from '#db/client.ts';

/** One program at a time looks which replay is next. */
const CLAIM_LOCK = 730_511_611;
/** A program that has not said for so long that it works on a replay has died. */
const SILENT_S = 60;
/** A replay during which the program died so often is not begun again: it may well be what it died of. */
const MOST_ATTEMPTS = 2;

export interface ClaimedReplay {
  id: number;
  request: unknown;
  depots: string[] | null;
}

/**
 * Takes the replay that has waited longest, or one whose program has died; null where there is none, or where one is being
 * run by any program of this database. `startedAt` is who has it: none begins twice at the same moment. One whose program
 * has died twice has failed, for the reason `givenUp`.
 */
export async function claimReplay(
  db: Database,
  startedAt: Date,
  givenUp: string,
): Promise<ClaimedReplay | null> {
  return db.transaction(async (transaction) => {
    const client = rawClient(transaction);
    await client`select pg_advisory_xact_lock(${CLAIM_LOCK})`;
    await client`
      update replays set state = 'failed', ended_at = ${startedAt}, error = ${givenUp}
      where state = 'running' and attempts >= ${MOST_ATTEMPTS}
        and alive_at < clock_timestamp() - make_interval(secs => ${SILENT_S})`;
    const [row] = await client<ClaimedReplay[]>`
      update replays set state = 'running', started_at = ${startedAt}, alive_at = clock_timestamp(), done = 0,
        attempts = attempts + 1
      where id = (
          select id from replays where state = 'waiting'
            or (state = 'running' and alive_at < clock_timestamp() - make_interval(secs => ${SILENT_S}))
          order by asked_at, id limit 1)
        and not exists (select from replays
          where state = 'running' and alive_at >= clock_timestamp() - make_interval(secs => ${SILENT_S}))
      returning id, request, depots`;
    return row ?? null;
  });
}

/** Says that the work goes on, and how far it is; false where it is no longer this program's. */
export async function noteReplayAlive(
  db: Database,
  id: number,
  startedAt: Date,
  { done, of }: { done: number; of: number },
): Promise<boolean> {
  const rows = await rawClient(db)`
    update replays set alive_at = clock_timestamp(), done = ${done}, "of" = ${of}
    where id = ${id} and state = 'running' and started_at = ${startedAt} returning id`;
  return rows.length > 0;
}

/** Lets the work be begun again, by whoever looks next: the program is stopped, and that is no fault of it. */
export async function releaseReplay(db: Database, id: number, startedAt: Date): Promise<void> {
  await rawClient(db)`
    update replays set state = 'waiting', done = 0, attempts = greatest(attempts - 1, 0)
    where id = ${id} and state = 'running' and started_at = ${startedAt}`;
}
