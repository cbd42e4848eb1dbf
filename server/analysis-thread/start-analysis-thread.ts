import { SlipdriftError } from '#server/errors.ts';
import { startTurnThread } from '#server/start-turn-thread.ts';
import type { Answer, FromThread, ToThread } from './messages.ts';

export interface AnalysisThread {
  /** The answer to a body; a request that ends while it waits is dropped. */
  run(asked: ToThread, signal: AbortSignal): Promise<Answer>;
}

/** An analysis of 100,000 points or lives holds some 150 MiB for a moment, most of it as long as it lasts. */
const MOST_HEAP_MIB = 512;
const YOUNG_HEAP_MIB = 192;

/** A body may be small and yet unfold into more than the thread may hold, such as millions of empty lists. */
function refuseExcess(error: unknown): never {
  if (error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY')
    throw new SlipdriftError(
      'body_too_large',
      'The body unfolds into more than an analysis may hold. Nothing was computed; send fewer lives or points at once.',
    );
  throw error;
}

/** A thread for analyses: nothing has to stop it. */
export function startAnalysisThread(): AnalysisThread {
  const thread = startTurnThread<ToThread, FromThread>({
    file: new URL('./thread.mjs', import.meta.url),
    name: 'analysis',
    mostHeapMib: MOST_HEAP_MIB,
    youngHeapMib: YOUNG_HEAP_MIB,
  });
  return {
    async run(asked, signal) {
      const reply = await thread.run(asked, { signal, transfer: [asked.body] }).catch(refuseExcess);
      if (reply === null)
        throw new SlipdriftError('busy', 'The request ended while it waited. Nothing was computed.');
      if (reply.kind === 'answered') return reply.answer;
      if (reply.kind === 'refused')
        throw new SlipdriftError(reply.code, reply.detail, { errors: reply.errors });
      throw new Error(reply.message);
    },
  };
}
