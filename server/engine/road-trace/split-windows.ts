import { measureMedian } from '#server/engine/robust/measure-median.ts';
import type { Gap, WindowRows } from './trace-model.ts';

const WINDOW_MS = 1000;
const LEAST_GAP_MS = 3000;
const GAP_STEPS = 5;
/** Steps that the median is taken of, spread evenly: more would not tell it better. */
const MOST_STEPS = 10_000;

/**
 * Windows of a trace: the rows of each second, or each row where rows are further apart than a second.
 *
 * Step = median of the differences of time above 0. A jump of more than max(3 s, 5 steps) is a gap; windows begin anew
 * after it. Where step <= 1 s, window k of a run holds start + k s <= t < start + (k + 1) s; a second without rows makes
 * none. Else each row is a window up to the next.
 *
 * At 100 rows a second neighbouring rows never differ by the 5 points at which the gate calls a command moving; seconds
 * do.
 *
 * @param tMs times, ms, never falling
 * @returns step in ms, windows and gaps in order of time
 * Source: window and gap are own choice; common practice, no source. Edges: one row has a step of 0 and makes one
 * window without length; of very many rows the step is that of 10,000 spread evenly. Errors: none; the order is not
 * checked.
 * @example splitWindows([0, 500, 1000]).windows.length // 2
 */
export function splitWindows(tMs: ArrayLike<number>): {
  stepMs: number;
  windows: WindowRows[];
  gaps: Gap[];
} {
  const n = tMs.length;
  const stepMs = medianStep(tMs);
  const gapMs = Math.max(LEAST_GAP_MS, GAP_STEPS * stepMs);
  const byRow = stepMs > WINDOW_MS;
  const windows: WindowRows[] = [];
  const gaps: Gap[] = [];
  let open: WindowRows | null = null;
  for (let i = 0; i < n; i++) {
    const ms = tMs[i] ?? 0;
    const before = i === 0 ? null : (tMs[i - 1] ?? 0);
    const begins = before === null || ms - before > gapMs;
    if (begins && before !== null) {
      if (open !== null) open.toMs = Math.min(open.toMs, before + stepMs);
      gaps.push({ fromMs: before, toMs: ms });
    }
    if (open !== null && !begins && !byRow && ms < open.fromMs + WINDOW_MS) {
      open.to = i + 1;
      continue;
    }
    if (open !== null && !begins && byRow) open.toMs = ms;
    const fromMs: number =
      begins || byRow || open === null
        ? ms
        : open.fromMs + Math.floor((ms - open.fromMs) / WINDOW_MS) * WINDOW_MS;
    open = { from: i, to: i + 1, fromMs, toMs: fromMs + (byRow ? stepMs : WINDOW_MS), begins };
    windows.push(open);
  }
  if (open !== null) open.toMs = Math.min(open.toMs, (tMs[n - 1] ?? 0) + stepMs);
  return { stepMs, windows, gaps };
}

function medianStep(tMs: ArrayLike<number>): number {
  const every = Math.max(1, Math.floor((tMs.length - 1) / MOST_STEPS));
  const steps: number[] = [];
  for (let i = 1; i < tMs.length; i += every) {
    const step = (tMs[i] ?? 0) - (tMs[i - 1] ?? 0);
    if (step > 0) steps.push(step);
  }
  return steps.length === 0 ? 0 : measureMedian(steps);
}
