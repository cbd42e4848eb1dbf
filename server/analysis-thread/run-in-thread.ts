import { parentPort } from 'node:worker_threads';
import { gzipSync } from 'node:zlib';
import { SlipdriftError } from '#server/errors.ts';
import { analyseLives } from '#server/services/analysis/analyse-lives.ts';
import { analyseTrend } from '#server/services/analysis/analyse-trend.ts';
import { readLivesRequest } from '#server/services/analysis/read-lives-request.ts';
import { readTrendRequest } from '#server/services/analysis/read-trend-request.ts';
import type { AnalysisKind, Answer, FromThread, ToThread } from './messages.ts';

/** Digits pack nearly as well at the lowest level, in a third of the time. */
const LEVEL = 1;

/** The thread of long analyses: reads, computes and writes, so that no other request waits for any of it. */
parentPort?.on('message', (asked: ToThread) => {
  const reply = answer(asked);
  parentPort?.postMessage(reply, reply.kind === 'answered' ? [reply.answer.bytes] : []);
});

const analyses: Record<AnalysisKind, (body: string) => unknown> = {
  trend: (body) => analyseTrend(readTrendRequest(body)),
  lives: (body) => analyseLives(readLivesRequest(body)),
};

function answer({ kind, body, takesGzip }: ToThread): FromThread {
  try {
    const json = JSON.stringify(analyses[kind](new TextDecoder().decode(body)));
    return { kind: 'answered', answer: pack(json, takesGzip) };
  } catch (error) {
    if (error instanceof SlipdriftError)
      return { kind: 'refused', code: error.code, detail: error.message, errors: error.errors };
    return {
      kind: 'failed',
      message: error instanceof Error ? (error.stack ?? error.message) : String(error),
    };
  }
}

function pack(json: string, isGzip: boolean): Answer {
  const bytes = isGzip ? gzipSync(json, { level: LEVEL }) : new TextEncoder().encode(json);
  // A copy has a buffer of its own, which can be handed over.
  return { bytes: new Uint8Array(bytes).buffer, isGzip };
}
