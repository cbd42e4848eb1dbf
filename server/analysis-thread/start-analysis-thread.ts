import { SlipdriftError } from '#server/errors.ts';
import { startTurnThread } from '#server/start-turn-thread.ts';
import type { FromThread, ToThread } from './messages.ts';

export interface AnalysisThread {
  /** The answer to a body as JSON; a request that ends while it waits is dropped. */
  run(body: ArrayBuffer, signal: AbortSignal): Promise<string>;
}

/** An analysis of 100,000 points holds some 150 MiB for a moment. */
const MOST_HEAP_MIB = 512;

/** A thread for analyses: nothing has to stop it. */
export function startAnalysisThread(): AnalysisThread {
  const thread = startTurnThread<ToThread, FromThread>({
    file: new URL('./thread.mjs', import.meta.url),
    name: 'analysis',
    mostHeapMib: MOST_HEAP_MIB,
  });
  return {
    async run(body, signal) {
      const reply = await thread.run({ body }, { signal, transfer: [body] });
      if (reply === null)
        throw new SlipdriftError('busy', 'The request ended while it waited. Nothing was computed.');
      if (reply.kind === 'answered') return reply.json;
      if (reply.kind === 'refused')
        throw new SlipdriftError(reply.code, reply.detail, { errors: reply.errors });
      throw new Error(reply.message);
    },
  };
}
