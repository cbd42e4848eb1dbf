import { mkdir, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';

/** Two programs that build at once each put theirs in the other's place; more than some turns nobody needs. */
const MOST_TURNS = 20;

/** Puts a built folder in the place of the one that is served: whole, whoever else does the same just then. */
export async function placeScreens(built: string, place: string): Promise<void> {
  const old = `${built}-before`;
  await mkdir(dirname(place), { recursive: true });
  for (let turn = 1; ; turn += 1) {
    await rename(place, old).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'ENOENT') throw error;
    });
    try {
      await rename(built, place);
      break;
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if ((code !== 'ENOTEMPTY' && code !== 'EEXIST') || turn >= MOST_TURNS) throw error;
      await rm(old, { recursive: true, force: true });
    }
  }
  await rm(old, { recursive: true, force: true });
}
