import { parentPort } from 'node:worker_threads';
import { SlipdriftError } from '#server/errors.ts';
import { analyseTrend } from '#server/services/analysis/analyse-trend.ts';
import { readTrendRequest } from '#server/services/analysis/read-trend-request.ts';
import type { FromThread, ToThread } from './messages.ts';

/** The thread of long analyses: reads, computes and writes, so that no other request waits for any of it. */
parentPort?.on('message', ({ body }: ToThread) => {
  parentPort?.postMessage(answer(new TextDecoder().decode(body)));
});

function answer(body: string): FromThread {
  try {
    return { kind: 'answered', json: JSON.stringify(analyseTrend(readTrendRequest(body))) };
  } catch (error) {
    if (error instanceof SlipdriftError)
      return { kind: 'refused', code: error.code, detail: error.message, errors: error.errors };
    return {
      kind: 'failed',
      message: error instanceof Error ? (error.stack ?? error.message) : String(error),
    };
  }
}
