import { parentPort, workerData } from 'node:worker_threads';
import { openDatabase } from '#db/client.ts';
import { createErrorLog } from '#server/create-log.ts';
import { toSlipdriftError } from '#server/errors.ts';
import { programActor } from '#server/services/actor.ts';
import { previewChange } from '#server/services/settings/preview-change.ts';
import type { FromThread, ThreadSettings, ToThread } from './messages.ts';

/** The thread of previews, with connections of its own: assessing a platform anew keeps no request waiting. */
const { databaseUrl, clockShiftMs } = workerData as ThreadSettings;
const { db } = openDatabase(databaseUrl, { connections: 2 });
const ctx = {
  db,
  now: () => new Date(Date.now() + clockShiftMs),
  log: createErrorLog('warn'),
  actor: programActor('preview'),
};
let dropped = false;

const answer = (reply: FromThread) => parentPort?.postMessage(reply);

parentPort?.on('message', (message: ToThread) => {
  dropped = message.kind === 'drop';
  if (message.kind === 'drop') return;
  const watch = {
    stopped: () => dropped,
    progress: (done: number, of: number) => answer({ kind: 'progress', done, of }),
  };
  previewChange(ctx, message.request, watch).then(
    (preview) => answer({ kind: 'made', preview }),
    (error: unknown) => {
      const { code, message: detail, errors, retryAfterS = null } = toSlipdriftError(error);
      const { message } = error as { message?: string };
      answer({ kind: 'failed', code, detail, errors, retryAfterS, message: message ?? String(error) });
    },
  );
});
