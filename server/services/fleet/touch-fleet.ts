import { type Database, rawClient } from '#db/client.ts';
import { lockVehicles, touchVehicles } from '#db/queries/touch-vehicles.ts';

/** How much of a vehicle the next assessment must do again. */
export type Reach = 'stretches' | 'assessment';

/**
 * Leaves vehicles to the next assessment after a change of what their readings are judged by: all their stretches, or
 * only what follows from the stretches. Vehicles without readings have nothing to assess.
 */
export async function touchFleet(transaction: Database, reaches: ReadonlyMap<number, Reach>): Promise<void> {
  if (reaches.size === 0) return;
  const keys = [...reaches.keys()];
  await lockVehicles(transaction, keys);
  const rows = await rawClient(transaction)<{ key: number; first: Date; last: Date }[]>`
    select vehicle as key, first_at as first, last_at as last from reading_spans
    where vehicle in (select jsonb_array_elements_text(${JSON.stringify(keys)}::text::jsonb)::integer)`;
  const spans = rows.map(({ key, first, last }) => ({
    vehicle: key,
    fromAt: reaches.get(key) === 'stretches' ? first : last,
    toAt: last,
  }));
  await touchVehicles(transaction, spans);
}

/** The further reach wins. */
export function addReach(reaches: Map<number, Reach>, vehicle: number, reach: Reach): void {
  if (reaches.get(vehicle) !== 'stretches') reaches.set(vehicle, reach);
}
