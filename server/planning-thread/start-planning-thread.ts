import { SlipdriftError } from '#server/errors.ts';
import type { SolveDepots } from '#server/services/plan/solve-depots.ts';
import { startTurnThread } from '#server/start-turn-thread.ts';
import type { FromThread, ToThread } from './messages.ts';

export interface PlanningThread {
  /** Solves depots; a request that ends while it waits is dropped. A solver that died is told of, and begun anew. */
  run(signal: AbortSignal, onFault: (fault: string) => void): SolveDepots;
}

const MOST_HEAP_MIB = 512;
/** Plans that wait for their turn: each takes up to ten seconds. */
const MOST_WAITING = 3;

/** A thread for plans: nothing has to stop it. */
export function startPlanningThread(): PlanningThread {
  const thread = startTurnThread<ToThread, FromThread>({
    file: new URL('./thread.mjs', import.meta.url),
    name: 'planning',
    mostHeapMib: MOST_HEAP_MIB,
    isSpent: ({ fault }) => fault !== null,
  });
  return {
    run: (signal, onFault) => async (questions) => {
      if (thread.waiting() >= MOST_WAITING)
        throw new SlipdriftError(
          'busy',
          `${MOST_WAITING} plans wait for their turn already, and this one was not begun. Ask again in half a minute.`,
          { retryAfterS: 30 },
        );
      const reply = await thread.run({ questions }, { signal });
      if (reply === null)
        throw new SlipdriftError('busy', 'The request ended while it waited. Nothing was planned.');
      if (reply.fault !== null) onFault(reply.fault);
      return reply.solved;
    },
  };
}
