import { monitorEventLoopDelay } from 'node:perf_hooks';
import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';
import { startPlanningThread } from '#server/planning-thread/start-planning-thread.ts';
import { makeDepotQuestion, type QuestionSize } from '#tests/helpers/make-depot-question.ts';

/**
 * `npm run measure:plan`: what a plan takes, from its questions to its answers in the planning thread, extra bays
 * included. 1,000 vehicles that may be inspected, 10 depots, 30 calendar days of which 22 are worked; one JSON line a
 * plan. The main thread does nothing but wait, and its longest delay is told.
 */
const SEEDS = [1, 2, 3];
const some = [8, 12, 16, 24];
/** Twelve lengths from 1 to 5.5 h. */
const many = [4, 5, 6, 7, 9, 10, 11, 13, 15, 17, 19, 22];

const usual: QuestionSize = {
  candidates: 100,
  days: 22,
  bays: 2,
  openQuarters: 36,
  lengths: some,
  holdShare: 0.1,
  bookedShare: 0.2,
  awayShare: 0.2,
};

const cases: [name: string, depots: number, size: QuestionSize][] = [
  ['loose, 3 bays a depot', 10, { ...usual, bays: 3 }],
  ['middling, 2 bays', 10, usual],
  ['tight, 1 bay', 10, { ...usual, bays: 1 }],
  ['all inspections 3 h, 2 bays', 10, { ...usual, lengths: [12] }],
  ['two lengths, 1 bay', 10, { ...usual, bays: 1, lengths: [12, 16] }],
  ['half on hold, 1 bay', 10, { ...usual, bays: 1, holdShare: 0.5 }],
  ['one depot of 1,000 vehicles and 15 bays', 1, { ...usual, candidates: 1_000, bays: 15 }],
  ['hard: 12 lengths, 1 bay', 10, { ...usual, bays: 1, lengths: many }],
  ['hard: 12 lengths, all on hold, 1 bay', 10, { ...usual, bays: 1, lengths: many, holdShare: 1 }],
];

const thread = startPlanningThread();
const solve = thread.run(new AbortController().signal, (fault) => console.log(JSON.stringify({ fault })));
const alive = setInterval(() => {}, 1000);
await solve([]);
for (const [name, depots, size] of cases.filter(([name]) => name.includes(process.argv[2] ?? '')))
  for (const seed of SEEDS) {
    const questions = Array.from(
      { length: depots },
      (_, i): DepotQuestion => makeDepotQuestion(100 * seed + i, size),
    );
    const delay = monitorEventLoopDelay({ resolution: 5 });
    delay.enable();
    const started = performance.now();
    const solved = await solve(questions);
    const seconds = (performance.now() - started) / 1000;
    delay.disable();
    const value = solved.reduce((sum, { plan }) => sum + plan.value, 0);
    const most = solved.reduce((sum, { plan }) => sum + (plan.mostValue ?? Infinity), 0);
    console.log(
      JSON.stringify({
        case: name,
        seed,
        seconds: round(seconds, 2),
        proved: solved.filter(({ plan }) => plan.optimal).length,
        gap_pct: round((100 * (most - value)) / most, 4),
        holds_in_doubt: solved.reduce((sum, { plan }) => sum + (plan.mostHolds ?? Infinity) - plan.holds, 0),
        extra_bays: solved.filter(({ extra }) => extra !== null).length,
        delay_p99_ms: round(delay.percentile(99) / 1e6, 1),
        delay_max_ms: round(delay.max / 1e6, 1),
      }),
    );
  }
clearInterval(alive);

function round(value: number, digits: number): number {
  return Math.round(value * 10 ** digits) / 10 ** digits;
}
