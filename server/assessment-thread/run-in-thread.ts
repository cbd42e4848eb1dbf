import { parentPort, workerData } from 'node:worker_threads';
import { openDatabase } from '#db/client.ts';
import { createErrorLog } from '#server/create-log.ts';
import { toSlipdriftError } from '#server/errors.ts';
import { programActor } from '#server/services/actor.ts';
import { workOff } from '#server/services/assessment/bring-up-to-date.ts';
import type { FromThread, ThreadSettings, ToThread } from './messages.ts';

/**
 * A thread of the assessment's own, with connections of its own: the only file beside `main.ts` with effects at import.
 * Arithmetic here never keeps a request waiting.
 */
const { databaseUrl, clockShiftMs } = workerData as ThreadSettings;
const { db, close } = openDatabase(databaseUrl, { connections: 4 });
const ctx = {
  db,
  now: () => new Date(Date.now() + clockShiftMs),
  log: createErrorLog('warn'),
  actor: programActor('assessment'),
};
let stopped = false;
let running: Promise<unknown> = Promise.resolve();

const answer = (reply: FromThread) => parentPort?.postMessage(reply);

parentPort?.on('message', (message: ToThread) => {
  if (message.kind === 'stop') {
    stopped = true;
    running.then(() => close()).finally(() => parentPort?.close());
    return;
  }
  running = workOff(ctx, message.until, () => stopped).then(
    (assessed) => answer({ kind: 'assessed', assessed }),
    (error: unknown) => {
      const { code, message: detail, retryAfterS = null } = toSlipdriftError(error);
      const { message } = error as { message?: string };
      answer({ kind: 'failed', code, detail, retryAfterS, message: message ?? String(error) });
    },
  );
});
