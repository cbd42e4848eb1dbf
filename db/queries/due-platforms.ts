import { type Database, rawClient } from '#db/client.ts';

/** First half of the locks of platforms that are being learned; the second is made of their name. */
const LEARN_LOCK = 730_513;

/** Notes that what these platforms have in common is to be learned again: those of vehicles touched until then. */
export async function askToLearn(db: Database, until: string): Promise<void> {
  await rawClient(db)`
    insert into due_platforms (platform, since)
    select distinct coalesce(v.platform, ''), ${until}::text::timestamptz from vehicles v
    where v.key in (select vehicle from touched_vehicles where since <= ${until}::text::timestamptz
      union select vehicle from claimed_vehicles where since <= ${until}::text::timestamptz and next <> 'rank')
    order by 1
    on conflict do nothing`;
}

/** Platforms that somebody asked to be learned. */
export async function listAskedPlatforms(db: Database, until: string): Promise<string[]> {
  const rows = await rawClient(db)`
    select distinct platform from due_platforms where since <= ${until}::text::timestamptz order by platform`;
  return rows.map((row) => String(row.platform));
}

/** Whether a platform is this transaction's to learn: nobody else learns it. */
export async function tryLearnLock(transaction: Database, platform: string): Promise<boolean> {
  const [row] = await rawClient(transaction)`
    select pg_try_advisory_xact_lock(${LEARN_LOCK}::integer, hashtext(${platform})) as mine`;
  return row?.mine === true;
}

/** What is asked later stays: it may be for vehicles whose stretches were not there yet. */
export async function forgetAsked(transaction: Database, platform: string, until: string): Promise<void> {
  await rawClient(transaction)`
    delete from due_platforms where platform = ${platform} and since <= ${until}::text::timestamptz`;
}
