import { CommandError } from '#server/cli/command-error.ts';
import { openOwnContext } from '#server/cli/open-own-context.ts';
import { problem } from '#server/contract/problems.ts';
import { type SetUpFileReply, setUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import type { SetUpKind } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';
import { setUpFromFile } from '#server/services/bulk-set-up/set-up-from-file.ts';

/** What a file sets up: storage itself, or a server that runs. */
interface SetUpTarget {
  take(kind: SetUpKind, bytes: Uint8Array, dryRun: boolean): Promise<SetUpFileReply>;
  close(): Promise<void>;
}

export async function openStorageItself(): Promise<SetUpTarget> {
  const { context, close } = await openOwnContext('set up');
  return { take: (kind, bytes, dryRun) => setUpFromFile(context, kind, bytes, dryRun), close };
}

export const openServer = (url: string, key: string | null): SetUpTarget => ({
  take: (kind, bytes, dryRun) => send(new URL(`/api/set-up/${kind}?dry_run=${dryRun}`, url), key, bytes),
  async close() {},
});

async function send(url: URL, key: string | null, bytes: Uint8Array): Promise<SetUpFileReply> {
  const answer = await fetch(url, {
    method: 'POST',
    headers: {
      'content-type': 'text/csv',
      ...(key === null ? {} : { authorization: `Bearer ${key}` }),
    },
    body: new Uint8Array(bytes),
  }).catch((error: unknown) => {
    const { cause } = error as { cause?: { code?: string; message?: string } };
    throw new CommandError(
      `${url.origin} broke off or cannot be reached (${cause?.code ?? cause?.message ?? error}). Do it again: what is done already is not done twice.`,
    );
  });
  const said: unknown = await answer.json().catch(() => null);
  const reply = setUpFileReply.safeParse(said);
  if (answer.ok && reply.success) return reply.data;
  const declined = problem.safeParse(said);
  if (declined.success)
    throw new SlipdriftError(declined.data.code, declined.data.detail, { errors: declined.data.errors });
  throw new CommandError(`${url.origin} answered ${answer.status}, which is not an answer of Slipdrift.`);
}
