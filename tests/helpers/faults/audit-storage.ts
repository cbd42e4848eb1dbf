import type { RawClient } from '#db/client.ts';
import type { Acknowledged } from './gateway.ts';

export interface Audit {
  /** lines acknowledged, refused ones included */
  acknowledged: number;
  /** lines that were acknowledged and are not there */
  lost: number;
  /** readings there more than once; refused lines more than once under one key, or under one receipt */
  twice: number;
  /** what does not agree, in words: empty where all is well */
  disagreements: string[];
}

/** Holds what is stored against what was acknowledged, by the numbers that every line carries. */
export async function auditStorage(client: RawClient, acknowledged: readonly Acknowledged[]): Promise<Audit> {
  const disagreements: string[] = [];
  const readings = await client`select odometer_km::integer as number from readings`;
  const seen = new Map<number, number>();
  for (const { number } of readings) seen.set(number, (seen.get(number) ?? 0) + 1);
  const good = acknowledged.flatMap(({ delivery }) => delivery.numbers);
  let lost = good.filter((number) => !seen.has(number)).length;
  let twice = [...seen.values()].filter((times) => times > 1).length;

  const refused = await readRefused(client);
  for (const { delivery, reply } of acknowledged)
    for (const raw of delivery.refused) {
      const receipts = refused.get(raw) ?? [];
      const here = receipts.filter((receipt) => receipt === reply.receipt).length;
      if (here === 0) lost++;
      if (here > 1 || (delivery.key !== null && receipts.length > 1)) twice++;
    }

  const receipts = new Map((await readReceipts(client)).map((row) => [row.id, row]));
  for (const { delivery, reply } of acknowledged) {
    const row = receipts.get(reply.receipt);
    const sent = delivery.numbers.length + delivery.refused.length;
    if (row === undefined) disagreements.push(`receipt ${reply.receipt} is not there`);
    else if (
      !row.complete ||
      row.received !== sent ||
      row.stored !== reply.stored ||
      row.refused !== delivery.refused.length
    )
      disagreements.push(
        `receipt ${JSON.stringify(row)} for ${sent} lines, answered ${JSON.stringify(reply)}`,
      );
  }
  let stored = 0;
  for (const row of receipts.values()) {
    stored += row.stored;
    if (row.received !== row.stored + row.duplicate + row.refused || row.refused !== row.lines)
      disagreements.push(`receipt does not add up: ${JSON.stringify(row)}`);
  }
  if (stored !== readings.length)
    disagreements.push(`receipts tell of ${stored} readings stored, and there are ${readings.length}`);
  disagreements.push(...(await auditVehicles(client)));
  const lines = acknowledged.reduce((sum, { delivery }) => sum + delivery.refused.length, good.length);
  return { acknowledged: lines, lost, twice, disagreements: disagreements.slice(0, 10) };
}

async function readRefused(client: RawClient): Promise<Map<string, string[]>> {
  const found = new Map<string, string[]>();
  for (const { raw, receipt } of await client`select raw, receipt from refused_lines`)
    found.set(raw, [...(found.get(raw) ?? []), receipt]);
  return found;
}

interface ReceiptRow {
  id: string;
  complete: boolean;
  received: number;
  stored: number;
  duplicate: number;
  refused: number;
  /** refused lines that are there */
  lines: number;
}

const readReceipts = (client: RawClient) => client<ReceiptRow[]>`
  select id, complete, received, stored, duplicate, refused,
    (select count(*) from refused_lines l where l.receipt = r.id) as lines
  from receipts r`;

/** First and last reading of every vehicle, and that each reading is in a stretch or noted for the next assessment. */
async function auditVehicles(client: RawClient): Promise<string[]> {
  const wrong = await client`
    with have as (
      select vehicle, min(at) as first, max(at) as last, count(*) as n from readings group by vehicle),
    summed as (
      select vehicle, sum(usable + (
        select coalesce(sum(n::integer), 0) from jsonb_each(set_aside) m, jsonb_each_text(m.value) r(reason, n))) as n
      from stretch_totals group by vehicle),
    noted as (
      select vehicle, min(from_at) as from_at, max(to_at) as to_at from (
        select vehicle, from_at, to_at from touched_vehicles
        union all select vehicle, from_at, to_at from claimed_vehicles where next = 'stretches') t
      group by vehicle)
    select v.unit, h.n, s.n as summed, t.vehicle is not null as noted
    from have h join vehicles v on v.key = h.vehicle left join reading_spans g on g.vehicle = h.vehicle
      left join summed s on s.vehicle = h.vehicle left join noted t on t.vehicle = h.vehicle
    where g.first_at is distinct from h.first or g.last_at is distinct from h.last
      or (t.vehicle is null and s.n is distinct from h.n)
      or (t.vehicle is not null and (t.from_at > h.last or t.to_at < h.first))`;
  return wrong.map((row) => `vehicle ${JSON.stringify(row)} does not agree with its readings`);
}
