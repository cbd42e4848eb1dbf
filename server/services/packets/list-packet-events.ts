import { and, asc, eq, inArray } from 'drizzle-orm';
import { changes } from '#db/schema/access.ts';
import { findings, packets } from '#db/schema/packets.ts';
import { causeWords, coreWords, outcomeWords, partWords } from '#server/contract/packet-words.ts';
import type { Part } from '#server/contract/repair.ts';
import type { VehicleHistory } from '#server/contract/vehicle.ts';
import type { CoreState } from '#server/contract/words.ts';
import { inOneLine } from '#server/services/bookings/booking-words.ts';
import type { Context } from '#server/services/context.ts';
import { mileageWords, type Units } from '#server/services/words/length-words.ts';
import { stepTexts } from './step-texts.ts';
import type { StoredJudgement, StoredReport } from './stored-packet.ts';
import { toCause } from './weigh-cooler.ts';

export interface PacketEvent {
  at: Date;
  odometerKm: number | null;
  kind: VehicleHistory['events'][number]['kind'];
  text: string;
}

type Packet = typeof packets.$inferSelect;

/** What shops saw, found and did with a vehicle, in words with who did it. */
export async function listPacketEvents(
  { db }: Context,
  vehicle: number,
  units: Units,
): Promise<PacketEvent[]> {
  const rows = await db.select().from(packets).where(eq(packets.vehicle, vehicle)).orderBy(asc(packets.id));
  if (rows.length === 0) return [];
  const ids = rows.map(({ id }) => id);
  const [found, noted] = await Promise.all([
    db
      .select({
        step: findings.step,
        at: findings.at,
        by: findings.by,
        km: findings.odometerKm,
        judgement: findings.judgement,
      })
      .from(findings)
      .where(inArray(findings.packet, ids))
      .orderBy(asc(findings.id)),
    db
      .select()
      .from(changes)
      .where(
        and(
          eq(changes.subject, 'packet'),
          inArray(changes.subjectId, ids.map(String)),
          inArray(changes.action, ['link_made', 'link_revoked', 'core_noted']),
        ),
      )
      .orderBy(asc(changes.id)),
  ]);
  return [
    ...rows.flatMap((row) => [
      {
        at: row.openedAt,
        odometerKm: null,
        kind: 'packet_opened' as const,
        text: `Packet ${row.id} opened by ${row.openedBy}`,
      },
      ...tellClosing(row, units),
    ]),
    ...found.map(({ step, at, by, km, judgement }) => ({
      at,
      odometerKm: km,
      kind: 'finding_recorded' as const,
      text: `${stepTexts[step].title}: ${(judgement as StoredJudgement).words} Recorded by ${by}`,
    })),
    ...noted.map(({ at, action, actorName, before, after }) => ({
      at,
      odometerKm: null,
      ...sayNoted(action, actorName, { ...before, ...after }),
    })),
  ];
}

function tellClosing(row: Packet, units: Units): PacketEvent[] {
  const { outcome, closedAt, odometerKm, workAt } = row;
  if (outcome === null || closedAt === null) return [];
  const cause = outcome === 'repaired' ? toCause(row.cause) : null;
  const details = [
    cause === null ? '' : `: ${causeWords[cause].toLowerCase()}`,
    row.reason === '' ? '' : `. ${inOneLine(row.reason)}`,
    row.withoutCooler === '' ? '' : `. Closed without a cooler record: ${inOneLine(row.withoutCooler)}`,
    row.calmUntilKm === null
      ? ''
      : `. The list is calm until ${mileageWords(row.calmUntilKm, units)} unless slip rises`,
  ];
  const { parts } = row.report as StoredReport;
  return [
    ...parts.map((part) => ({
      at: workAt ?? closedAt,
      odometerKm,
      kind: 'part_fitted' as const,
      text: sayPart(part, units),
    })),
    {
      at: closedAt,
      odometerKm,
      kind: 'packet_closed' as const,
      text: `Job closed by ${row.closedBy}, ${outcomeWords[outcome].toLowerCase()}${details.join('')}`,
    },
  ];
}

function sayPart({ kind, what, source, supplier, run_km }: Part, units: Units): string {
  const name = what === '' ? partWords[kind] : `${partWords[kind]} ${what}`;
  const ran = run_km === null ? '' : `, had run ${mileageWords(run_km, units)} before`;
  return `Fitted: ${name}, ${source}${supplier === '' ? '' : `, from ${supplier}`}${ran}`;
}

function sayNoted(action: string, by: string, content: Record<string, unknown>) {
  if (action === 'core_noted')
    return {
      kind: 'core_noted' as const,
      text: `Old unit${content.part === '' ? '' : ` of ${content.part}`}: ${coreWords[content.core as CoreState]}, noted by ${by}`,
    };
  return action === 'link_made'
    ? { kind: 'link_made' as const, text: `Link to the packet made for ${content.label} by ${by}` }
    : { kind: 'link_revoked' as const, text: `Link to the packet for ${content.label} revoked by ${by}` };
}
