import { type Database, rawClient } from '#db/client.ts';

/** Units of the vehicles with this VIN, which comes in capitals without blanks; a few, as one is all that should be. */
export async function findUnitsByVin(db: Database, vin: string): Promise<string[]> {
  const rows = await rawClient(db)<{ unit: string }[]>`
    select unit from vehicles
    where upper(regexp_replace(vin, '[[:space:].-]', '', 'g')) = ${vin}
    order by unit limit 10`;
  return rows.map(({ unit }) => unit);
}
