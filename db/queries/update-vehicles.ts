import { type Database, rawClient } from '#db/client.ts';
import type { vehicles } from '#db/schema/fleet.ts';

export type VehicleFacts = Pick<
  typeof vehicles.$inferSelect,
  'key' | 'depot' | 'platform' | 'vin' | 'retired' | 'registered' | 'unavailable'
>;

/** Sets what people say of vehicles, all in one statement. Whoever calls it has locked them. */
export async function updateVehicles(transaction: Database, facts: readonly VehicleFacts[]): Promise<void> {
  if (facts.length === 0) return;
  await rawClient(transaction)`
    update vehicles v
    set depot = f.depot, platform = f.platform, vin = f.vin, retired = f.retired, registered = f.registered,
      unavailable = f.unavailable
    from jsonb_to_recordset(${JSON.stringify(facts)}::text::jsonb) as f(key integer, depot text, platform text,
      vin text, retired boolean, registered boolean, unavailable jsonb)
    where v.key = f.key`;
}
