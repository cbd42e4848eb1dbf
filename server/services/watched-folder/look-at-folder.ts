import type { Mapping } from '#server/contract/mappings.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { findMapping } from '#server/services/mappings/mappings.ts';
import { listFiles, type SeenFile } from './list-files.ts';
import { moveDone, moveRefused } from './move-file.ts';
import { type Taken, takeFile } from './take-file.ts';
import { createStillness } from './watch-stillness.ts';

export interface WatchOptions {
  /** as `checkFolder` answers it */
  folder: string;
  stillMs: number;
  onTaken: (fate: 'done' | 'refused', reply: DeliveryReply | null) => void;
}

/** Makes what looks at the folder once: takes in what lies still, and moves it. */
export function createLook(ctx: Context, { folder: root, stillMs, onTaken }: WatchOptions) {
  const still = createStillness(stillMs);
  /** taken in, and not moved yet */
  const settled = new Map<string, Exclude<Taken, { fate: 'left' }>>();
  const told = new Set<string>();
  const tellOnce = (key: string, tell: () => void) => {
    if (!told.has(key)) tell();
    told.add(key);
  };

  const move = async (file: SeenFile, taken: Exclude<Taken, { fate: 'left' }>): Promise<void> => {
    const key = keyOf(file);
    try {
      const path =
        taken.fate === 'done'
          ? await moveDone(root, file)
          : await moveRefused(root, file, taken.why, taken.reply);
      settled.delete(key);
      told.delete(key);
      const { receipt, stored, duplicate, refused } = taken.reply ?? {};
      ctx.log.info({ file: path, receipt, stored, duplicate, refused }, `watched folder: ${taken.fate}`);
    } catch (error) {
      // Somebody else has moved it, or taken it away.
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return void settled.delete(key);
      settled.set(key, taken);
      tellOnce(key, () =>
        ctx.log.error({ err: error, file: file.path }, 'watched folder: taken in, but it cannot be moved'),
      );
    }
  };

  const take = async (file: SeenFile, mapping: Mapping | null, signal: AbortSignal): Promise<boolean> => {
    const known = settled.get(keyOf(file));
    const taken = known ?? (await takeFile(ctx, file, mapping, signal));
    if (taken.fate === 'left') {
      if (!signal.aborted)
        tellOnce(keyOf(file), () =>
          ctx.log.warn(
            { err: taken.error, file: file.path },
            'watched folder: a file waits, and is tried again',
          ),
        );
      return false;
    }
    if (known === undefined) onTaken(taken.fate, taken.reply);
    await move(file, taken);
    return true;
  };

  return async (signal: AbortSignal): Promise<void> => {
    const mappings = new Map<string, Mapping | null>();
    for (const file of still(await listFiles(root))) {
      if (signal.aborted) return;
      const { folder } = file;
      if (folder !== null && !mappings.has(folder)) {
        const mapping = await findNamed(ctx, folder);
        mappings.set(folder, mapping);
        if (mapping === null)
          tellOnce(`folder ${folder}`, () =>
            ctx.log.warn(
              { folder },
              'watched folder: a folder has the name of no mapping; its files are left',
            ),
          );
        else told.delete(`folder ${folder}`);
      }
      const mapping = folder === null ? null : (mappings.get(folder) ?? null);
      if (folder !== null && mapping === null) continue;
      await take(file, mapping, signal);
    }
  };
}

const keyOf = ({ path, bytes, modifiedMs }: SeenFile): string => `${path} ${bytes} ${modifiedMs}`;

async function findNamed(ctx: Context, name: string): Promise<Mapping | null> {
  try {
    return await findMapping(ctx, name);
  } catch (error) {
    if (error instanceof SlipdriftError && error.code === 'not_found') return null;
    throw error;
  }
}
