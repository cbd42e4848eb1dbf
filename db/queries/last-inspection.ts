import { type Database, rawClient } from '#db/client.ts';
import { urgencyText } from './urgency.ts';

type Kind = 'visit' | 'worse' | 'calm';

/** An inspection speaks for its vehicle for so long. Own choice. */
const INSPECTED_MS = 14 * 86_400_000;

interface Found {
  kind: Kind;
  vehicle: number;
  /** when the visit was, or when the vehicle was last graded worse */
  at: Date | null;
  /** of a visit: from when on a worse grade counts against it */
  since: Date | null;
  /** of a visit: whether it is new enough to speak by itself */
  recent: boolean | null;
  day: string | null;
  packet: number | null;
}

/**
 * Days of the last inspection of these vehicles that still speaks for them: done within the last two weeks, and the vehicle
 * not graded worse since; or the word of a shop that keeps the list calm about it. A vehicle without one is not there. Each
 * table is asked by the vehicles alone, so that no part of the statement goes by rows of another.
 */
export async function readLastInspections(
  db: Database,
  vehicles: readonly number[],
  now: Date,
): Promise<ReadonlyMap<number, string>> {
  if (vehicles.length === 0) return new Map();
  const client = rawClient(db);
  const earliest = new Date(now.getTime() - INSPECTED_MS);
  const keys = client`any(${[...vehicles]}::integer[])`;
  const rows = await client<Found[]>`
    select 'visit' as kind, b.vehicle, b.ends_at as at, least(b.ends_at, b.changed_at) as since, true as recent,
      b.day::text as day, null::integer as packet
    from bookings b where b.vehicle = ${keys} and b.state = 'done' and b.ends_at > ${earliest}
    union all
    select 'visit', p.vehicle, p.work_at, p.closed_at, p.work_at > ${earliest},
      (p.work_at at time zone coalesce(d.time_zone, 'UTC'))::date::text, p.id
    from packets p left join depots d on d.id = p.depot where p.vehicle = ${keys} and p.state = 'closed'
    union all
    select 'worse', g.vehicle, max(g.at), null, null, null, null
    from grade_changes g where g.vehicle = ${keys} and ${client.unsafe(urgencyText('g.to_grade'))} > ${client.unsafe(urgencyText('g.from_grade'))}
    group by g.vehicle
    union all
    select 'calm', a.vehicle, null, null, null, null, a.calm_packet
    from assessments a where a.vehicle = ${keys} and a.calm_packet is not null`;
  return chooseLast(rows);
}

/** Of each vehicle the last visit that speaks for it. */
function chooseLast(rows: readonly Found[]): ReadonlyMap<number, string> {
  const of = (kind: Kind) => rows.filter((row) => row.kind === kind);
  const worse = new Map(of('worse').map(({ vehicle, at }) => [vehicle, at]));
  const calm = new Map(of('calm').map(({ vehicle, packet }) => [vehicle, packet]));
  const last = new Map<number, Found>();
  for (const visit of of('visit')) {
    const { vehicle, at, since, recent, packet } = visit;
    const worseAt = worse.get(vehicle) ?? null;
    const holds = recent === true && (worseAt === null || since === null || worseAt <= since);
    if (!holds && (packet === null || calm.get(vehicle) !== packet)) continue;
    const before = last.get(vehicle);
    if (before === undefined || timeOf(at) > timeOf(before.at)) last.set(vehicle, visit);
  }
  return new Map([...last].flatMap(([vehicle, { day }]) => (day === null ? [] : [[vehicle, day] as const])));
}

const timeOf = (at: Date | null): number => at?.getTime() ?? Number.POSITIVE_INFINITY;
