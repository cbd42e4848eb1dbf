import { eq } from 'drizzle-orm';
import type { z } from 'zod';
import { lockPacket } from '#db/queries/find-packet.ts';
import { packets } from '#db/schema/packets.ts';
import type { coreRequest, ReportRequest } from '#server/contract/repair.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { findPacket } from './find-packet.ts';
import { refuseClosed } from './record-finding.ts';
import type { StoredReport } from './stored-packet.ts';

/** Keeps parts, cooler and teardown as far as they are known; who saw an older version is told. */
export async function saveReport(
  ctx: Context,
  id: number,
  { version, ...report }: ReportRequest,
): Promise<void> {
  await ctx.db.transaction(async (transaction) => {
    const inside = { ...ctx, db: transaction };
    await findPacket(inside, id);
    const packet = await lockPacket(transaction, id);
    refuseClosed(packet);
    refuseOlder(packet, version);
    await transaction
      .update(packets)
      .set({ report, version: packet.version + 1 })
      .where(eq(packets.id, id));
    await noteChanges(transaction, ctx, [
      {
        action: 'report_saved',
        subject: 'packet',
        subjectId: String(id),
        before: { ...(packet.report as StoredReport) },
        after: { ...report },
      },
    ]);
  });
}

/** Says what became of the old unit of a part, which is often known only after the job was closed. */
export async function noteCore(
  ctx: Context,
  id: number,
  { part: index, core }: z.output<typeof coreRequest>,
): Promise<void> {
  await ctx.db.transaction(async (transaction) => {
    await findPacket({ ...ctx, db: transaction }, id);
    const packet = await lockPacket(transaction, id);
    const report = packet.report as StoredReport;
    const part = report.parts[index];
    if (part === undefined)
      throw new SlipdriftError('invalid_request', `The report of packet ${id} has no part ${index}.`, {
        errors: [{ field: 'part', message: `must be below ${report.parts.length}` }],
      });
    const parts = report.parts.map((one, i) => (i === index ? { ...one, core } : one));
    await transaction
      .update(packets)
      .set({ report: { ...report, parts }, version: packet.version + 1 })
      .where(eq(packets.id, id));
    await noteChanges(transaction, ctx, [
      {
        action: 'core_noted',
        subject: 'packet',
        subjectId: String(id),
        before: { part: part.what, core: part.core },
        after: { part: part.what, core },
        always: ['part'],
      },
    ]);
  });
}

export function refuseOlder(packet: { version: number }, version: number): void {
  if (packet.version === version) return;
  throw new SlipdriftError(
    'conflict',
    'Somebody else changed the report of this packet meanwhile. Nothing of yours was stored; look at it again.',
    { errors: [{ field: 'version', message: `is ${packet.version} now` }] },
  );
}
