import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import { eq } from 'drizzle-orm';
import { findings } from '#db/schema/packets.ts';
import type { Recorded, RoadTrace } from '#server/contract/test-steps.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { findPacket } from './find-packet.ts';
import { judgeTrace } from './judge-trace.ts';
import { readJudgedPlatform } from './judged-platform.ts';
import { keepFile } from './keep-file.ts';
import { refuseClosed, storeFinding } from './record-finding.ts';

const pack = promisify(gzip);

interface TraceFile {
  name: string;
  bytes: Buffer;
  asMeasured: boolean;
}

/** Reads a recorded road test by the rules of the platform, and keeps the file with what it came to. */
export async function recordRoadTest(
  ctx: Context,
  id: number,
  { name, bytes, asMeasured }: TraceFile,
): Promise<Recorded> {
  const found = await findPacket(ctx, id);
  refuseClosed(found.packet);
  const judged = await judgeTrace({ name, bytes }, await readJudgedPlatform(ctx, found.platform), asMeasured);
  if (judged.kind === 'asked') return judged;
  const { judgement, trace } = judged;
  const content = await pack(bytes);
  return ctx.db.transaction(async (transaction) => {
    const inside = { ...ctx, db: transaction };
    const file = await keepFile(inside, id, { kind: 'trace', name, type: 'text/csv', bytes, content });
    const input = { step: 'road_test' as const, file: name, rows: trace.rows, notes: '' };
    return storeFinding(inside, id, { input, judgement, trace, file: file.id });
  });
}

/** The recorded trace behind a finding. */
export async function getTrace(ctx: Context, id: number, finding: number): Promise<RoadTrace> {
  await findPacket(ctx, id);
  const [row] = await ctx.db
    .select({ packet: findings.packet, trace: findings.trace })
    .from(findings)
    .where(eq(findings.id, finding));
  if (row === undefined || row.packet !== id || row.trace === null)
    throw new SlipdriftError('not_found', `Packet ${id} has no recorded trace under ${finding}.`);
  return row.trace as RoadTrace;
}
