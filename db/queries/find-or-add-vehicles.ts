import { type Database, rawClient } from '#db/client.ts';

/**
 * Keys of the units, unknown ones added without a platform. Within a transaction, before any other lock: units are added
 * in the order of their names, so that two deliveries that bring the same new units never wait in a circle.
 */
export async function findOrAddVehicles(
  transaction: Database,
  units: readonly string[],
): Promise<Map<string, number>> {
  const client = rawClient(transaction);
  const list = JSON.stringify(units);
  const find = () =>
    client<{ key: number; unit: string }[]>`
      select key, unit from vehicles where unit in (select jsonb_array_elements_text(${list}::text::jsonb))`;
  let rows = await find();
  if (rows.length < units.length) {
    await client`
      insert into vehicles (unit)
      select unit from jsonb_array_elements_text(${list}::text::jsonb) as u(unit)
      where not exists (select from vehicles v where v.unit = u.unit)
      order by unit collate "C"
      on conflict do nothing`;
    rows = await find();
  }
  return new Map(rows.map((row) => [row.unit, row.key]));
}
