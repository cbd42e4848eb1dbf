import { describe, expect, it } from 'vitest';
import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';
import { makeDepotQuestion } from '#tests/helpers/make-depot-question.ts';
import { loadSolver } from './load-solver.ts';
import { solveInTime } from './solve-in-time.ts';
import { startPlanningThread } from './start-planning-thread.ts';

const make = (seed: number, candidates: number): DepotQuestion =>
  makeDepotQuestion(seed, {
    candidates,
    days: 5,
    bays: 1,
    openQuarters: 36,
    lengths: [8, 12],
    holdShare: 0.1,
    bookedShare: 0.2,
    awayShare: 0.2,
  });
const questions = [make(1, 30), make(2, 5), make(3, 12)];
const withoutFault = (fault: string) => {
  throw new Error(fault);
};

describe('the thread of plans', { timeout: 60_000 }, () => {
  it('answers depots in the order asked, as the solver here does', async () => {
    const thread = startPlanningThread();
    const solved = await thread.run(new AbortController().signal, withoutFault)(questions);
    const here = solveInTime(questions, await loadSolver());
    expect(solved).toEqual(here);
    expect(solved.map(({ plan }) => plan.optimal)).toEqual([true, true, true]);
  });

  it('takes plans one after another, drops those that nobody waits for, and refuses too many', async () => {
    const thread = startPlanningThread();
    const gone = new AbortController();
    const run = (signal = new AbortController().signal) => thread.run(signal, withoutFault)(questions);
    const [first, second, dropped, last] = [run(), run(), run(gone.signal), run()];
    await expect(run()).rejects.toMatchObject({ code: 'busy', retryAfterS: 30 });
    gone.abort();
    await expect(dropped).rejects.toMatchObject({ code: 'busy' });
    expect(await second).toEqual(await first);
    expect(await last).toEqual(await first);
  });

  it('keeps nobody else waiting while it solves', async () => {
    const thread = startPlanningThread();
    const plan = thread.run(new AbortController().signal, withoutFault)([make(4, 60), make(5, 60)]);
    let turns = 0;
    const timer = setInterval(() => {
      turns += 1;
    }, 5);
    const started = performance.now();
    await plan;
    clearInterval(timer);
    // A thread that solved here would let no turn through; half of them may be lost to whatever else the machine does.
    expect(turns).toBeGreaterThan((performance.now() - started) / 5 / 10);
  });
});
