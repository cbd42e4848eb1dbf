import { type Database, rawClient } from '#db/client.ts';

/** A try takes ten seconds at most: whoever has not said after so long how it ended has died. */
const LEASE = "interval '1 minute'";
const NO_WORD = 'It is being tried, or the program ended meanwhile';

export interface ClaimedPost {
  id: string;
  webhook: number;
  at: Date;
  body: unknown;
  /** this one included */
  tries: number;
  url: string;
  secret: string;
}

export interface ClaimOptions {
  now: Date;
  /** webhooks to which something is under way already */
  busy: readonly number[];
  /** this one alone, due or not */
  only?: string;
}

/**
 * Takes the post in hand that has been due longest; null where none is. Until its lease ends no other program takes it,
 * and one that dies midway leaves it due again. A confirmed one is never taken.
 */
export async function claimPost(
  db: Database,
  { now, busy, only }: ClaimOptions,
): Promise<ClaimedPost | null> {
  const client = rawClient(db);
  const wanted =
    only === undefined
      ? client`p.next_at <= ${now}::timestamptz and not w.paused and p.webhook <> all(${[...busy]}::int[])`
      : client`p.id = ${only}::uuid and (p.last_fault is distinct from ${NO_WORD} or p.next_at <= ${now}::timestamptz)`;
  const [row] = await client<ClaimedPost[]>`
    with due as (
      select p.id, w.url, w.secret from webhook_posts p join webhooks w on w.id = p.webhook
      where p.state = 'waiting' and w.ended_at is null and ${wanted}
      order by p.next_at, p.at limit 1 for update of p skip locked
    )
    update webhook_posts p set tries = least(p.tries + 1, 32767), next_at = ${now}::timestamptz + ${client.unsafe(LEASE)},
      last_at = ${now}, last_status = null, last_fault = ${NO_WORD}
    from due where p.id = due.id
    returning p.id, p.webhook, p.at, p.body, p.tries, due.url, due.secret`;
  return row ?? null;
}

export interface TryResult {
  status: number | null;
  /** null where it was confirmed */
  fault: string | null;
  /** null for never */
  nextAt: Date | null;
}

/** Notes how a try ended. One that was confirmed or given up meanwhile stays so, whatever a slower sender says later. */
export async function noteTry(
  db: Database,
  { id, tries }: Pick<ClaimedPost, 'id' | 'tries'>,
  { status, fault, nextAt }: TryResult,
): Promise<void> {
  const state = fault === null ? 'given' : nextAt === null ? 'given_up' : 'waiting';
  await rawClient(db)`
    update webhook_posts set state = ${state}, next_at = ${fault === null ? null : nextAt},
      last_status = ${status}, last_fault = ${fault}
    where id = ${id}::uuid and state <> 'given' and (${fault === null} or (tries = ${tries} and state = 'waiting'))`;
}
