import { parentPort } from 'node:worker_threads';
import { loadSolver } from './load-solver.ts';
import type { FromThread, ToThread } from './messages.ts';
import { solveInTime } from './solve-in-time.ts';

/** The thread of plans: a solver keeps the processor busy for seconds, and no request waits for it but the plan's own. */
const solver = await loadSolver();

parentPort?.on('message', ({ questions }: ToThread) => {
  const reply: FromThread = { solved: solveInTime(questions, solver), fault: solver.fault() };
  parentPort?.postMessage(reply);
});
