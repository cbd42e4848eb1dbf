import { parentPort } from 'node:worker_threads';
import { SlipdriftError } from '#server/errors.ts';
import { analyseLives } from '#server/services/analysis/analyse-lives.ts';
import { analyseTrend } from '#server/services/analysis/analyse-trend.ts';
import { readLivesRequest } from '#server/services/analysis/read-lives-request.ts';
import { readTrendRequest } from '#server/services/analysis/read-trend-request.ts';
import type { AnalysisKind, FromThread, ToThread } from './messages.ts';

/** The thread of long analyses: reads, computes and writes, so that no other request waits for any of it. */
parentPort?.on('message', ({ kind, body }: ToThread) => {
  parentPort?.postMessage(answer(kind, new TextDecoder().decode(body)));
});

const analyses: Record<AnalysisKind, (body: string) => unknown> = {
  trend: (body) => analyseTrend(readTrendRequest(body)),
  lives: (body) => analyseLives(readLivesRequest(body)),
};

function answer(kind: AnalysisKind, body: string): FromThread {
  try {
    return { kind: 'answered', json: JSON.stringify(analyses[kind](body)) };
  } catch (error) {
    if (error instanceof SlipdriftError)
      return { kind: 'refused', code: error.code, detail: error.message, errors: error.errors };
    return {
      kind: 'failed',
      message: error instanceof Error ? (error.stack ?? error.message) : String(error),
    };
  }
}
