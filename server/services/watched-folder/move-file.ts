import { mkdir, open, rename, rm, writeFile } from 'node:fs/promises';
import { join, parse } from 'node:path';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { DONE, REFUSED } from './check-folder.ts';
import type { SeenFile } from './list-files.ts';

const MOST_OF_A_NAME = 10_000;

/** Moves a file that is taken in; answers where it lies now. */
export const moveDone = (root: string, file: SeenFile): Promise<string> => moveTo(root, DONE, file);

/** Moves a file that could not be taken in, with the reason beside it. */
export async function moveRefused(
  root: string,
  file: SeenFile,
  why: string,
  reply: DeliveryReply | null,
): Promise<string> {
  const path = await moveTo(root, REFUSED, file);
  const receipt = reply === null ? 'Nothing of it is kept in Slipdrift.' : `Receipt: ${reply.receipt}`;
  await writeFile(`${path}.why.txt`, `${why}\n\n${receipt}\n`);
  return path;
}

/** Another file of the same name is never overwritten: the name gets a number. */
async function moveTo(root: string, place: string, { path, name, folder }: SeenFile): Promise<string> {
  const to = folder === null ? join(root, place) : join(root, place, folder);
  await mkdir(to, { recursive: true });
  const { name: stem, ext } = parse(name);
  for (let n = 1; n < MOST_OF_A_NAME; n += 1) {
    const target = join(to, n === 1 ? name : `${stem}-${n}${ext}`);
    if (!(await isFree(target))) continue;
    try {
      await rename(path, target);
    } catch (error) {
      await rm(target, { force: true });
      throw error;
    }
    return target;
  }
  throw new Error(`${to} holds ${MOST_OF_A_NAME} files named ${name} already`);
}

/** Takes the name, as an empty file that the move then replaces: so it is nobody else's meanwhile. */
async function isFree(target: string): Promise<boolean> {
  try {
    await (await open(target, 'wx')).close();
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}
