import { type Database, rawClient } from '#db/client.ts';
import type { ConfirmedDelivery } from '#demo-fleet/send.ts';

/**
 * The demo sends fourteen months within a minute. Its receipts get the moments at which they would have come, so that
 * the intake shows gateways as they deliver in a year.
 */
export async function dateDeliveries(db: Database, receipts: readonly ConfirmedDelivery[]): Promise<void> {
  const list = JSON.stringify(
    receipts.map(({ receipt, arrivedMs }) => ({ receipt, at: new Date(arrivedMs).toISOString() })),
  );
  const client = rawClient(db);
  await client`
    update receipts r set at = d.at, ended_at = d.at + (r.ended_at - r.at)
    from jsonb_to_recordset(${list}::text::jsonb) as d(receipt uuid, at timestamptz) where r.id = d.receipt`;
  await client`update refused_lines l set at = r.at from receipts r where r.id = l.receipt`;
}
