import { and, desc, eq, isNull } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { people } from '#db/schema/access.ts';
import { sentDigests } from '#db/schema/planning.ts';

/** After a try that failed, or of which nobody knows how it ended: 5 minutes, then twice as long each time, to 5 hours. */
const dueAgain = `s.tried_at + interval '5 minutes' * power(2, least(s.tries, 7) - 1)`;

/** Those who asked for the digest, may have it and have not got that of a week: ids, who waits longest first. */
export async function listDuePeople(db: Database, week: string, now: Date): Promise<string[]> {
  const client = rawClient(db);
  const rows = await client<{ id: string }[]>`
    select p.id from people p left join sent_digests s on s.person = p.id and s.week = ${week}::date
    where p.weekly_digest and not p.closed and p.role in ('planner', 'analyst', 'admin')
      and s.sent_at is null and (s.person is null or ${client.unsafe(dueAgain)} <= ${now}::timestamptz)
    order by s.tried_at nulls first, p.id`;
  return rows.map(({ id }) => id);
}

export interface Recipient {
  id: string;
  name: string;
  email: string;
  role: 'planner' | 'analyst' | 'admin';
  depots: string[] | null;
  digestUnits: 'metric' | 'imperial';
}

/**
 * Takes the digest of a person and week in hand: null where another program has done so, or where they have it, or where
 * it is not to be sent any more. Nobody else takes it before the pause is over.
 */
export async function claimDigest(
  db: Database,
  person: string,
  week: string,
  now: Date,
): Promise<Recipient | null> {
  const client = rawClient(db);
  const [row] = await client<Recipient[]>`
    with claimed as (
      insert into sent_digests as s (person, week, tries, tried_at)
      select id, ${week}::date, 1, ${now}::timestamptz from people
      where id = ${person} and weekly_digest and not closed and role in ('planner', 'analyst', 'admin')
      on conflict (person, week) do update set tries = s.tries + 1, tried_at = excluded.tried_at
      where s.sent_at is null and ${client.unsafe(dueAgain)} <= excluded.tried_at
      returning person
    )
    select p.id, p.name, p.email, p.role, p.depots, p.digest_units as "digestUnits"
    from claimed join people p on p.id = claimed.person`;
  return row ?? null;
}

export async function noteSent(db: Database, person: string, week: string, at: Date): Promise<void> {
  await db.update(sentDigests).set({ sentAt: at, problem: null }).where(ofWeek(person, week));
}

export async function noteNotSent(
  db: Database,
  person: string,
  week: string,
  problem: string,
): Promise<void> {
  await db
    .update(sentDigests)
    .set({ problem })
    .where(and(ofWeek(person, week), isNull(sentDigests.sentAt)));
}

const ofWeek = (person: string, week: string) =>
  and(eq(sentDigests.person, person), eq(sentDigests.week, week));

/** What a person chose, and what became of the digests that were to be sent to them, the newest first. */
export async function readDigestChoice(db: Database, person: string) {
  const [[choice], sent] = await Promise.all([
    db
      .select({ byMail: people.weeklyDigest, units: people.digestUnits })
      .from(people)
      .where(eq(people.id, person)),
    db
      .select()
      .from(sentDigests)
      .where(eq(sentDigests.person, person))
      .orderBy(desc(sentDigests.week))
      .limit(10),
  ]);
  return choice === undefined ? null : { ...choice, sent };
}
