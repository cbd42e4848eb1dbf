import { type Database, rawClient } from '#db/client.ts';
import { LIVING_WORKERS } from '#db/hold-worker-number.ts';

/** One worker at a time chooses what it takes: for milliseconds, and no delivery waits for it. */
const CLAIM_LOCK = 730_511_506;

/** A vehicle with the span of time whose stretches are to be built again. */
export interface ClaimedVehicle {
  vehicle: number;
  fromAt: Date;
  toAt: Date;
}

export interface ClaimOptions {
  worker: number;
  /** touched since later is left to another run */
  until: string;
  most: number;
  /** only those with a larger key: what was taken before them is passed over slowly, one by one, while it is not tidied away */
  after: number;
}

/** What is claimed no longer belongs to this worker: its connection was lost meanwhile, and another has taken over. */
export class ClaimLost extends Error {
  override name = 'ClaimLost';

  constructor() {
    super(
      'Another worker has taken over vehicles of this one, whose connection was lost; what it found of them was given up.',
    );
  }
}

/** The clock that tells how long vehicles have been touched, as text. */
export async function readTouchClock(db: Database): Promise<string> {
  const [row] = await rawClient(db)`select clock_timestamp()::text as now`;
  return String(row?.now);
}

/**
 * Takes touched vehicles in hand, in order of their keys, and those whose worker is gone before their stretches were built. What
 * is delivered from now on touches them anew, and one that somebody has in hand waits for that. Rows that a delivery is just
 * writing are passed over.
 */
export async function claimForStretches(
  db: Database,
  { worker, until, most, after }: ClaimOptions,
): Promise<ClaimedVehicle[]> {
  return db.transaction(async (transaction) => {
    const client = rawClient(transaction);
    await client`select pg_advisory_xact_lock(${CLAIM_LOCK})`;
    const touched = await client<ClaimedVehicle[]>`
      with living(worker) as materialized (${client.unsafe(LIVING_WORKERS)}),
      chosen as materialized (
        select t.vehicle from touched_vehicles t
        where t.vehicle > ${after} and t.since <= ${until}::text::timestamptz and not exists (select from claimed_vehicles c
          where c.vehicle = t.vehicle and c.claimed_by in (select worker from living))
        order by t.vehicle limit ${most} for update skip locked),
      taken as (
        delete from touched_vehicles t using chosen where t.vehicle = chosen.vehicle
        returning t.vehicle, t.from_at, t.to_at, t.since)
      insert into claimed_vehicles as c (vehicle, from_at, to_at, since, next, claimed_by)
      select vehicle, from_at, to_at, since, 'stretches', ${worker} from taken order by vehicle
      on conflict (vehicle) do update set
        from_at = least(c.from_at, excluded.from_at), to_at = greatest(c.to_at, excluded.to_at),
        since = least(c.since, excluded.since), next = excluded.next, claimed_by = excluded.claimed_by
      returning vehicle, from_at as "fromAt", to_at as "toAt"`;
    if (touched.length >= most) return [...touched];
    const left = await client<ClaimedVehicle[]>`
      with living(worker) as materialized (${client.unsafe(LIVING_WORKERS)}),
      chosen as materialized (
        select vehicle from claimed_vehicles
        where next = 'stretches' and since <= ${until}::text::timestamptz
          and (claimed_by is null or claimed_by not in (select worker from living))
        order by vehicle limit ${most - touched.length} for update skip locked)
      update claimed_vehicles c set claimed_by = ${worker} from chosen where c.vehicle = chosen.vehicle
      returning c.vehicle, from_at as "fromAt", to_at as "toAt"`;
    return [...touched, ...left];
  });
}

/** Takes vehicles in hand whose stretches stand, in order of their keys. */
export async function claimForAssessment(
  db: Database,
  { worker, until, most, after }: ClaimOptions,
): Promise<{ vehicle: number; platform: string | null }[]> {
  return db.transaction(async (transaction) => {
    const client = rawClient(transaction);
    await client`select pg_advisory_xact_lock(${CLAIM_LOCK})`;
    return client<{ vehicle: number; platform: string | null }[]>`
      with living(worker) as materialized (${client.unsafe(LIVING_WORKERS)}),
      chosen as materialized (
        select vehicle from claimed_vehicles
        where vehicle > ${after} and next = 'assessment' and since <= ${until}::text::timestamptz
          and (claimed_by is null or claimed_by not in (select worker from living))
        order by vehicle limit ${most} for update skip locked),
      taken as (
        update claimed_vehicles c set claimed_by = ${worker} from chosen where c.vehicle = chosen.vehicle
        returning c.vehicle)
      select taken.vehicle, v.platform from taken left join vehicles v on v.key = taken.vehicle
      order by taken.vehicle`;
  });
}

/**
 * Keeps vehicles that a worker has in hand from every other until the end of the transaction: for the moment in which what was
 * found is stored.
 */
export async function lockClaimed(
  transaction: Database,
  worker: number,
  vehicles: readonly number[],
): Promise<void> {
  const rows = await rawClient(transaction)`
    select vehicle from claimed_vehicles
    where vehicle = any(${vehicles as number[]}::integer[]) and claimed_by = ${worker}
    order by vehicle for update`;
  if (rows.length !== vehicles.length) throw new ClaimLost();
}

/** Hands vehicles that were locked on, to whoever does what comes next. */
export async function passClaimed(
  transaction: Database,
  vehicles: readonly number[],
  next: 'assessment' | 'rank',
): Promise<void> {
  await rawClient(transaction)`
    update claimed_vehicles set next = ${next}, from_at = null, to_at = null, claimed_by = null
    where vehicle = any(${vehicles as number[]}::integer[])`;
}

/** Leaves every vehicle of a platform, '' for none, to be assessed anew, in the transaction that stores why. */
export async function claimPlatform(transaction: Database, platform: string, until: string): Promise<void> {
  await rawClient(transaction)`
    insert into claimed_vehicles as c (vehicle, since, next)
    select v.key, ${until}::text::timestamptz, 'assessment'
    from vehicles v join reading_spans s on s.vehicle = v.key
    where coalesce(v.platform, '') = ${platform} order by v.key
    on conflict (vehicle) do update set next = excluded.next, since = least(c.since, excluded.since)
    where c.next = 'rank'`;
}

/** Whether vehicles touched until then are still to be built or assessed, free or in anybody's hand. */
export async function readLeft(
  db: Database,
  until: string,
): Promise<{ stretches: boolean; assessment: boolean }> {
  const [row] = await rawClient(db)`
    select exists (select from touched_vehicles where since <= ${until}::text::timestamptz)
        or exists (select from claimed_vehicles where since <= ${until}::text::timestamptz and next = 'stretches')
        as stretches,
      exists (select from claimed_vehicles where since <= ${until}::text::timestamptz and next = 'assessment')
        as assessment`;
  return { stretches: row?.stretches === true, assessment: row?.assessment === true };
}

/** Whether assessments were stored since the fleet was ranked. */
export async function isRankNoted(db: Database): Promise<boolean> {
  const [row] = await rawClient(db)`
    select exists (select from claimed_vehicles where next = 'rank') as noted`;
  return row?.noted === true;
}

/** Ends the work on vehicles with whose assessments the fleet is ranked, in the same transaction. */
export async function forgetRanked(transaction: Database): Promise<void> {
  await rawClient(transaction)`
    with ranked as (select vehicle from claimed_vehicles where next = 'rank' order by vehicle for update)
    delete from claimed_vehicles c using ranked where c.vehicle = ranked.vehicle`;
}
