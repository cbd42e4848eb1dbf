import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { CommandError } from '#server/cli/command-error.ts';
import { forkTypescript } from '#server/cli/fork-typescript.ts';
import { builtFrom, builtScreens, hashSources } from './hash-sources.ts';

/** Builds the screens unless they were built from exactly these sources. Answers whether it had to. */
export async function ensureScreens(signal?: AbortSignal): Promise<boolean> {
  const [digest, built] = await Promise.all([
    hashSources(),
    readFile(join(builtScreens, builtFrom), 'utf8').catch(() => ''),
  ]);
  if (digest === built) return false;
  try {
    await forkTypescript(new URL('./build.ts', import.meta.url), [], signal === undefined ? {} : { signal });
    return true;
  } catch (cause) {
    throw new CommandError(`The screens could not be built: ${(cause as Error).message}`);
  }
}
