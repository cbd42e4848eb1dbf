import { type Database, rawClient } from '#db/client.ts';

export interface OdometerStepRow {
  vehicle: number;
  at: Date;
  offsetKm: number;
}

/** All steps of the odometers of vehicles, in order of vehicle and time: few have any. */
export const readOdometerSteps = (db: Database, vehicles: readonly number[]): Promise<OdometerStepRow[]> =>
  rawClient(db)<OdometerStepRow[]>`
    select vehicle, at, offset_km as "offsetKm" from odometer_steps
    where vehicle = any(${vehicles as number[]}::integer[]) order by vehicle, at`;

/** Puts these steps of a vehicle in the place of those within a span of time. */
export async function replaceOdometerSteps(
  transaction: Database,
  vehicle: number,
  { fromAt, toAt }: { fromAt: Date; toAt: Date },
  steps: readonly OdometerStepRow[],
): Promise<void> {
  const client = rawClient(transaction);
  await client`
    delete from odometer_steps where vehicle = ${vehicle} and at >= ${fromAt} and at <= ${toAt}`;
  if (steps.length > 0)
    await client`
      insert into odometer_steps (vehicle, at, offset_km)
      select vehicle, at, "offsetKm" from jsonb_to_recordset(${JSON.stringify(steps)}::text::jsonb)
        as s(vehicle integer, at timestamptz, "offsetKm" float8)`;
}
