import { createHash } from 'node:crypto';
import type { Mapping } from '#server/contract/mappings.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { SlipdriftError, toSlipdriftError } from '#server/errors.ts';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { receiveDelivery } from '#server/services/intake/receive-delivery.ts';
import type { SeenFile } from './list-files.ts';
import { openFile } from './read-file.ts';

/** What became of a file: taken in; refused, with the reason in words; or left for another time. */
export type Taken =
  | { fate: 'done'; reply: DeliveryReply }
  | { fate: 'refused'; reply: DeliveryReply | null; why: string }
  | { fate: 'left'; error: unknown };

const LATER: readonly string[] = ['storage_full', 'storage_unavailable', 'busy', 'key_in_progress'];
const FIRST_SHOWN = 5;

/**
 * Takes a file in as a delivery, in a form of ours or by a mapping. Its key is made of what it holds, when it was written
 * and how it is read: taken again, because the program was killed before the file was moved, it has the same receipt.
 */
export async function takeFile(
  ctx: Context,
  file: SeenFile,
  mapping: Mapping | null,
  signal: AbortSignal,
): Promise<Taken> {
  try {
    const opened = await openFile(file.path, file.name, signal);
    try {
      const { format, gzip, sha256 } = opened;
      const own = format === 'csv' ? mapping : null;
      const text = JSON.stringify([file.folder, file.name, file.modifiedMs, sha256, own]);
      const { reply, fault } = await receiveDelivery(
        { ...ctx, actor: programActor('folder') },
        {
          body: opened.read(signal),
          format,
          contentType: 'file',
          mapping: own,
          given: { file: file.name.slice(0, 255) },
          file: (file.folder === null ? file.name : `${file.folder}/${file.name}`).slice(0, 255),
          gzip,
          limitBytes: Number.MAX_SAFE_INTEGER,
          ignoreUnknownColumns: false,
          idempotencyKey: createHash('sha256').update(text).digest('hex'),
        },
      );
      if (signal.aborted) return { fate: 'left', error: signal.reason };
      if (await opened.hasChanged()) return { fate: 'left', error: new Error('it was written to meanwhile') };
      if (fault !== null) return { fate: 'refused', reply, why: `${fault.message} ${sayCounts(reply)}` };
      if (reply.stored + reply.duplicate > 0) return { fate: 'done', reply };
      return {
        fate: 'refused',
        reply,
        why: `None of its lines could be a reading. ${sayFaults(reply.refusals)}`,
      };
    } finally {
      await opened.close();
    }
  } catch (error) {
    const { code } = error as { code?: unknown };
    if (signal.aborted || code === 'ENOENT') return { fate: 'left', error };
    const known = toSlipdriftError(error);
    if (LATER.includes(known.code) || isFileTrouble(error)) return { fate: 'left', error };
    if (!(error instanceof SlipdriftError))
      ctx.log.error({ err: error, file: file.path }, 'a file could not be stored');
    const why =
      error instanceof SlipdriftError
        ? `${known.message} ${sayFaults(known.errors)}`
        : 'It could not be stored; the log says why.';
    return { fate: 'refused', reply: null, why: why.trim() };
  }
}

/** Not the fault of what the file holds: a share that went away, no right to read it. */
const isFileTrouble = (error: unknown): boolean => {
  const { code, syscall } = error as { code?: unknown; syscall?: unknown };
  return typeof code === 'string' && typeof syscall === 'string' && /^(open|read|close|fstat)$/.test(syscall);
};

const sayCounts = ({ received, stored, duplicate, refused }: DeliveryReply): string =>
  `Lines before that: ${received}, of them ${stored} stored, ${duplicate} there already, ${refused} refused and kept.`;

function sayFaults(faults: readonly { line?: number | undefined; field: string; message: string }[]): string {
  const shown = faults
    .slice(0, FIRST_SHOWN)
    .map(({ line, field, message }) =>
      [line === undefined ? '' : `line ${line}: `, field, field === '' ? '' : ' ', message].join(''),
    );
  return shown.length === 0 ? '' : `\n${shown.join('\n')}`;
}
