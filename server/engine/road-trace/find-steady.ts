import { type GateReason, type GateRules, gateReading } from '#server/engine/gate/gate-reading.ts';
import type { TraceWindow } from './trace-model.ts';

/** Why a span is not looked at: by the gate, or as too short a stretch. */
export type AsideReason = GateReason | 'short';

export interface AsideSpan {
  fromMs: number;
  toMs: number;
  reason: AsideReason;
}

/**
 * A clutch takes one to two seconds to follow its command and an instrument may be a second behind: below five, more
 * than half of a stretch may still be the way there, and its median with it.
 */
const LEAST_STEADY_S = 5;
/** Fewer windows have no slope with limits. */
const LEAST_WINDOWS = 3;
/** A throttle held by foot or by cruise control on a level road stays within. */
const THROTTLE_HELD_PCT = 10;

/**
 * Steady stretches of a trace, and what is set aside.
 *
 * Each window passes the gate or not, the window before it as the reading before. A stretch is a run of windows that pass,
 * without a gap, whose command stays within the gate's step of the mean of the stretch so far, and whose throttle stays
 * within 10 % of it where known; a window that leaves begins the next. Stretches below 5 s or 3 windows are set aside as
 * short. The gate alone would let a slow ramp pass, second for second.
 *
 * @param windows of a trace, by time: slip in rpm, duty, throttle and load in %, speed in km/h, fluid in degC
 * @param rules   the platform's gate
 * @returns stretches as windows, and spans set aside with the gate's reason, joined where it is the same
 * Source: own rule; common practice, no source. Edges: none give none. Errors: none.
 * @example findSteady([], gateRules).stretches // []
 */
export function findSteady(
  windows: readonly TraceWindow[],
  rules: GateRules,
): { stretches: TraceWindow[][]; setAside: AsideSpan[] } {
  const stretches: TraceWindow[][] = [];
  const setAside: AsideSpan[] = [];
  const putAside = (window: TraceWindow, reason: AsideReason) => {
    const last = setAside.at(-1);
    if (last !== undefined && !window.begins && last.reason === reason && last.toMs >= window.fromMs)
      last.toMs = window.toMs;
    else setAside.push({ fromMs: window.fromMs, toMs: window.toMs, reason });
  };
  let run: TraceWindow[] = [];
  let [dutySum, throttleSum, throttles] = [0, 0, 0];
  const close = () => {
    if (isLongEnough(run)) stretches.push(run);
    else for (const window of run) putAside(window, 'short');
    run = [];
    [dutySum, throttleSum, throttles] = [0, 0, 0];
  };
  const leaves = ({ dutyPct, throttlePct }: TraceWindow) =>
    Math.abs(dutyPct - dutySum / run.length) > rules.dutyStepPct ||
    (throttlePct !== null &&
      throttles > 0 &&
      Math.abs(throttlePct - throttleSum / throttles) > THROTTLE_HELD_PCT);

  windows.forEach((window, i) => {
    const previous = windows[i - 1];
    const reason = gateReading(
      { ...window, atMs: window.fromMs },
      previous === undefined ? null : { atMs: previous.fromMs, dutyPct: previous.dutyPct },
      rules,
    );
    if (reason !== null || window.begins || (run.length > 0 && leaves(window))) close();
    if (reason !== null) {
      putAside(window, reason);
      return;
    }
    run.push(window);
    dutySum += window.dutyPct;
    if (window.throttlePct !== null) {
      throttleSum += window.throttlePct;
      throttles += 1;
    }
  });
  close();
  return { stretches, setAside };
}

function isLongEnough(run: readonly TraceWindow[]): boolean {
  const [first, last] = [run[0], run.at(-1)];
  if (first === undefined || last === undefined || run.length < LEAST_WINDOWS) return false;
  return last.toMs - first.fromMs >= LEAST_STEADY_S * 1000;
}
