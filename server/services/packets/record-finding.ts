import { listFindings, lockPacket } from '#db/queries/find-packet.ts';
import { findings } from '#db/schema/packets.ts';
import type { FindingInput, Judgement, Recorded, RoadTrace } from '#server/contract/test-steps.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { dayWords } from '#server/services/words/day-words.ts';
import { findPacket } from './find-packet.ts';
import { judgeFinding } from './judge-finding.ts';
import { readJudgedPlatform } from './judged-platform.ts';
import type { StoredInput } from './stored-packet.ts';
import { toFinding } from './to-finding.ts';

/** Judges what a test step showed and keeps it, or asks where the input may be a slip of the pen. */
export async function recordFinding(ctx: Context, id: number, input: FindingInput): Promise<Recorded> {
  const found = await findPacket(ctx, id);
  refuseClosed(found.packet);
  const judged = judgeFinding(input, await readJudgedPlatform(ctx, found.platform));
  if (judged.kind === 'asked') return judged;
  return ctx.db.transaction((transaction) =>
    storeFinding({ ...ctx, db: transaction }, id, { input, judgement: judged.judgement }),
  );
}

interface Judged {
  input: StoredInput;
  judgement: Judgement;
  trace?: RoadTrace;
  /** number of the file behind it */
  file?: number;
}

/** Keeps a judged finding, inside a transaction. */
export async function storeFinding(
  ctx: Context,
  id: number,
  { input, judgement, trace, file }: Judged,
): Promise<Recorded> {
  refuseClosed(await lockPacket(ctx.db, id));
  const { vehicle, span } = await findPacket(ctx, id);
  const [stored] = await ctx.db
    .insert(findings)
    .values({
      packet: id,
      step: input.step,
      at: ctx.now(),
      by: ctx.actor.name,
      odometerKm: span?.odometerKm ?? null,
      input,
      judgement,
      trace: trace ?? null,
      file: file ?? null,
    })
    .returning({ id: findings.id });
  await noteChanges(ctx.db, ctx, [
    {
      action: 'finding_recorded',
      subject: 'packet',
      subjectId: String(id),
      after: {
        vehicle: vehicle.unit,
        step: input.step,
        result: judgement.result,
        verdict: judgement.verdict,
      },
    },
  ]);
  const row = (await listFindings(ctx.db, [id])).find((one) => one.id === stored?.id);
  if (row === undefined) throw new Error('an insert answers its row');
  return { kind: 'stored', finding: toFinding(row) };
}

/** Who comes second is told who closed the job, and what they sent is theirs to keep. */
export function refuseClosed(packet: {
  state: string;
  closedAt: Date | null;
  closedBy: string | null;
}): void {
  if (packet.state === 'open') return;
  const when = packet.closedAt === null ? '' : ` on ${dayWords(packet.closedAt)}`;
  throw new SlipdriftError(
    'conflict',
    `${packet.closedBy ?? 'Somebody'} closed this job${when}. Nothing of this was stored; open a new packet for the vehicle if there is more to report.`,
    { errors: [{ field: 'state', message: 'is closed' }] },
  );
}
