import { type Database, rawClient } from '#db/client.ts';
import { offsetKm } from './joined-km.ts';
import { CODE_DAYS } from './read-assessed-vehicles.ts';

/** A vehicle whose last job ended with no fault found, or was declined, below a stated mileage. */
export interface CalmRow {
  vehicle: number;
  packet: number;
  untilKm: number;
  slipRpm: number | null;
  /** trouble codes that name the clutch and were still seen when the packet was opened */
  knownCodes: string[];
  /** as the instrument would show that was in the vehicle when the word was given */
  nowKm: number | null;
  levelRpm: number | null;
  limitRpm: number;
  /** those of the last assessment */
  codes: string[];
}

/** Vehicles about which the word of a shop may keep the list calm: the last closed packet of each decides. */
export function readCalms(db: Database): Promise<CalmRow[]> {
  const client = rawClient(db);
  return client<CalmRow[]>`
    select p.vehicle, p.id as packet, p.calm_until_km as "untilKm", p.calm_slip_rpm as "slipRpm",
      coalesce((select array_agg(c->>'code') from jsonb_array_elements(p.flag->'metric'->'codes') c
        where (c->>'names_clutch')::boolean
          and (c->>'last_at')::timestamptz > p.opened_at - make_interval(days => ${CODE_DAYS})), '{}') as "knownCodes",
      s.odometer_km + ${client.unsafe(offsetKm('p.vehicle'))} - ${client.unsafe(offsetKm('p.vehicle', 'p.work_at'))} as "nowKm",
      a.reference_slip_rpm as "levelRpm", a.limit_rpm as "limitRpm",
      coalesce((select array_agg(r->>'code') from jsonb_array_elements(a.brief->'reasons') r
        where r->>'kind' = 'code'), '{}') as codes
    from packets p join assessments a on a.vehicle = p.vehicle left join reading_spans s on s.vehicle = p.vehicle
    where p.calm_until_km is not null and p.id = (
      select max(l.id) from packets l where l.vehicle = p.vehicle and l.state = 'closed')`;
}

/** Notes which packet keeps the list calm about which vehicle, and forgets all others. */
export async function storeCalms(
  transaction: Database,
  calms: readonly { vehicle: number; packet: number }[],
): Promise<void> {
  await rawClient(transaction)`
    update assessments a set calm_packet = c.packet
    from (select x.vehicle, c.packet from assessments x
      left join jsonb_to_recordset(${JSON.stringify(calms)}::text::jsonb) as c(vehicle integer, packet bigint)
        on c.vehicle = x.vehicle
      where x.calm_packet is not null or c.packet is not null) c
    where a.vehicle = c.vehicle and a.calm_packet is distinct from c.packet`;
}
