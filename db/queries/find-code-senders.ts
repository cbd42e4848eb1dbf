import { type Database, rawClient } from '#db/client.ts';
import { CODE_DAYS } from './read-assessed-vehicles.ts';

/** Vehicles with the trouble codes that they have sent lately, each in each of its spellings once. */
export function findCodeSenders(db: Database): Promise<{ vehicle: number; code: string }[]> {
  return rawClient(db)<{ vehicle: number; code: string }[]>`
    select distinct t.vehicle, seen.code
    from stretch_totals t join reading_spans r on r.vehicle = t.vehicle, jsonb_object_keys(t.codes) as seen(code)
    where t.codes <> '{}' and t.last_at > r.last_at - make_interval(days => ${CODE_DAYS})
    order by t.vehicle`;
}
