import { and, eq, type SQL } from 'drizzle-orm';
import type { z } from 'zod';
import { listFindings, packetSeenBy } from '#db/queries/find-packet.ts';
import { listLivesOf } from '#db/queries/list-lives-of.ts';
import { type ListedPacketRow, listPacketRows } from '#db/queries/list-packets.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { packets } from '#db/schema/packets.ts';
import type { packetList, packetQuery } from '#server/contract/packets.ts';
import { toListedBooking } from '#server/services/bookings/to-listed-booking.ts';
import type { Context } from '#server/services/context.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { checkRepairs } from './check-repair.ts';
import { packetSightOf } from './find-packet.ts';
import { walkFindings } from './lay-out-steps.ts';
import { stepTexts } from './step-texts.ts';
import type { StoredFlag, StoredReport } from './stored-packet.ts';
import { toClosing } from './to-closing.ts';
import { toFinding } from './to-finding.ts';

type Query = z.output<typeof packetQuery>;

/** The packets that the one who asks may see: open jobs first. */
export async function listPackets(
  ctx: Context,
  { state, vehicle, depot, limit }: Query,
  units: Units,
): Promise<z.infer<typeof packetList>> {
  const conditions: (SQL | undefined)[] = [
    packetSeenBy(packetSightOf(ctx.actor)),
    state === undefined ? undefined : eq(packets.state, state),
    vehicle === undefined ? undefined : eq(vehicles.unit, vehicle),
    depot === undefined ? undefined : eq(packets.depot, depot),
  ];
  const { rows, total } = await listPacketRows(ctx.db, and(...conditions), limit);
  const ids = rows.map(({ packet }) => packet.id);
  const [found, lives] = await Promise.all([
    ids.length === 0 ? [] : listFindings(ctx.db, ids),
    listLivesOf(ctx.db, [...new Set(rows.map(({ packet }) => packet.vehicle))]),
  ]);
  const livesOf = (key: number) => lives.filter((life) => life.vehicle === key);
  const checks = await checkRepairs(
    ctx,
    rows.map(({ packet, vehicle: own, platform }) => ({
      packet,
      record: { vehicle: own, platform, lives: livesOf(packet.vehicle) },
    })),
    units,
  );
  const now = ctx.now();
  const listed = rows.map((row) => {
    const { packet, vehicle: own } = row;
    const findings = found.filter((one) => one.packet === packet.id).map(toFinding);
    const flag = (packet.flag as StoredFlag)[units];
    return {
      id: packet.id,
      vehicle: own.unit,
      depot: packet.depot,
      depot_name: row.shopName,
      platform: own.platform,
      state: packet.state,
      opened_at: packet.openedAt.toISOString(),
      opened_by: packet.openedBy,
      grade: flag.grade,
      sentence: flag.sentence,
      booking:
        row.booking === null || packet.state === 'closed'
          ? null
          : toListedBooking(row.booking, row.bookingTimeZone ?? 'UTC', now),
      findings: findings.length,
      next: packet.state === 'open' ? sayNext(row, findings) : null,
      closing: toClosing(packet, livesOf(packet.vehicle)),
      after: checks.get(packet.id) ?? null,
    };
  });
  return { total, packets: listed };
}

function sayNext({ packet }: ListedPacketRow, findings: ReturnType<typeof toFinding>[]): string {
  const { next } = walkFindings(findings);
  if (next !== null) return stepTexts[next].title;
  const { parts, teardown } = packet.report as StoredReport;
  return parts.length === 0 && teardown.cause === null ? 'Report what was done' : 'Close the job';
}
