import { type Database, rawClient } from '#db/client.ts';
import type { StoredSpan } from './store-readings.ts';
import { lockVehicles, touchVehicles } from './touch-vehicles.ts';

/** Brings the vehicles' first and last reading up to date and leaves their new span to the next assessment. */
export async function noteNewReadings(transaction: Database, spans: readonly StoredSpan[]): Promise<void> {
  if (spans.length === 0) return;
  const client = rawClient(transaction);
  await lockVehicles(
    transaction,
    spans.map((span) => span.vehicle),
  );
  await client`
    update vehicles v set
      first_reading_at = least(v.first_reading_at, s."fromAt"),
      last_reading_at = greatest(v.last_reading_at, s."toAt"),
      odometer_km = case when v.last_reading_at > s."toAt" then v.odometer_km else s."odometerKm" end
    from jsonb_to_recordset(${JSON.stringify(spans)}::text::jsonb)
      as s(vehicle integer, "fromAt" timestamptz, "toAt" timestamptz, "odometerKm" double precision)
    where v.key = s.vehicle`;
  await touchVehicles(transaction, spans);
}
