import { and, eq, isNull } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import {
  findCountedSince,
  type GatewayRow,
  listQuietVehicles,
  listGateways as readGateways,
} from '#db/queries/intake-desk/list-gateways.ts';
import { listSenderIds } from '#db/queries/intake-desk/list-senders.ts';
import { accessKeys } from '#db/schema/access.ts';
import type { Gateway, Gateways } from '#server/contract/intake.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { nameSenders, splitSender } from './name-senders.ts';

const USUAL_TIMES = 4;
const LONG_TIMES = 1.25;
const LEAST_QUIET_S = 3600;
const VEHICLE_QUIET_DAYS = 7;
const FORGOTTEN_DAYS = 182;
const VEHICLES = 500;
const WEEK_DAYS = 7;

const RULE =
  'A gateway counts as quiet when it has brought nothing for four times its usual interval, and for longer than ' +
  'nineteen of twenty of its last 50 intervals by a quarter, at least an hour. A vehicle counts as quiet after seven ' +
  'days without a reading, where its gateway has brought others since; after half a year it is not listed any more.';

/** Who brings readings, how often, and who has stopped. */
export async function listGateways(ctx: Context): Promise<Gateways> {
  const { db, actor } = ctx;
  requireAllDepots(actor, 'The list of gateways');
  const now = ctx.now();
  const ids = await listGatewayIds(db);
  const [rows, keys, quiet, countsFrom] = await Promise.all([
    readGateways(db, ids, now),
    db.select().from(accessKeys),
    listQuietVehicles(db, {
      now,
      quietDays: VEHICLE_QUIET_DAYS,
      forgottenDays: FORGOTTEN_DAYS,
      limit: VEHICLES,
    }),
    findCountedSince(db),
  ]);
  const nameSender = await nameSenders(db, [...ids, ...quiet.map(({ sender }) => sender)]);
  const keyOf = new Map(keys.map((key) => [`key:${key.id}`, key]));
  const rowOf = new Map(rows.map((row) => [row.sender, row]));
  const gateways = ids.flatMap((id): Gateway[] => {
    const sender = nameSender(id);
    const key = keyOf.get(id);
    const endedAt = key?.revokedAt ?? (key?.expiresAt != null && key.expiresAt <= now ? key.expiresAt : null);
    if (sender === null || (endedAt !== null && !rowOf.has(id))) return [];
    return [{ ...toGateway(rowOf.get(id), now), sender, right: key?.right ?? null, ended_at: iso(endedAt) }];
  });
  return {
    as_of: now.toISOString(),
    rule: RULE,
    counts_from: iso(countsFrom),
    gateways: gateways.sort(compare),
    vehicles: quiet.flatMap((row) => {
      const sender = nameSender(row.sender);
      if (sender === null) return [];
      const { vehicle, lastReadingAt, days, atShop } = row;
      return [{ vehicle, sender, last_reading_at: lastReadingAt.toISOString(), days, at_shop: atShop }];
    }),
    vehicles_total: quiet[0]?.total ?? 0,
  };
}

/** Machines that have delivered, and keys that may and have not yet. */
export async function listGatewayIds(db: Database): Promise<string[]> {
  const [senders, waiting] = await Promise.all([
    listSenderIds(db),
    db
      .select({ id: accessKeys.id })
      .from(accessKeys)
      .where(and(eq(accessKeys.right, 'deliver'), isNull(accessKeys.revokedAt))),
  ]);
  const machines = senders.filter((id) => {
    const { kind, own } = splitSender(id);
    return kind === 'key' || (kind === 'program' && (own === 'mqtt' || own === 'folder'));
  });
  return [...new Set([...machines, ...waiting.map(({ id }) => `key:${id}`)])];
}

function toGateway(row: GatewayRow | undefined, now: Date): Omit<Gateway, 'sender' | 'right' | 'ended_at'> {
  const usualS = row?.usualS ?? null;
  const quietAfterS =
    usualS === null ? null : Math.max(USUAL_TIMES * usualS, LONG_TIMES * (row?.longS ?? 0), LEAST_QUIET_S);
  const silentS = row === undefined ? 0 : (now.getTime() - row.lastAt.getTime()) / 1000;
  return {
    last_at: row?.lastAt.toISOString() ?? null,
    usual_s: usualS,
    quiet_after_s: quietAfterS,
    quiet: quietAfterS !== null && silentS > quietAfterS,
    vehicles: row?.vehicles ?? 0,
    readings_per_day: (row?.stored ?? 0) / WEEK_DAYS,
    refused_share: row === undefined || row.received === 0 ? null : row.refused / row.received,
  };
}

/** Quiet ones whose key still stands first, the longest silence first; then by name. */
function compare(a: Gateway, b: Gateway): number {
  const weight = ({ quiet, ended_at }: Gateway) => (ended_at !== null ? 0 : quiet ? 2 : 1);
  const byQuiet = weight(b) - weight(a);
  if (byQuiet !== 0) return byQuiet;
  if (weight(a) === 2) return (a.last_at ?? '').localeCompare(b.last_at ?? '');
  return a.sender.name.localeCompare(b.sender.name, 'en');
}

const iso = (moment: Date | null): string | null => moment?.toISOString() ?? null;
