import { type SignalName, signals } from '#server/engine/j1939/signals.ts';
import type { FollowedLog } from './follow-log.ts';

const needed: readonly SignalName[] = ['lockupEngaged', 'engineSpeed', 'inputShaftSpeed'];

/** Why no reading can be made of a log, in a sentence or two. */
export function sayNoReading(log: FollowedLog): string {
  const { lines, frames } = log.span();
  if (lines === 0) return 'The log is empty.';
  const [most] = log.leftOut();
  const others = most === undefined ? '' : ` Its lines are mostly ${most.why}.`;
  if (frames === 0) return `The log has no data frame with a 29-bit identifier.${others}`;
  const used = log.tracks().filter(({ isUsed }) => isUsed);
  const missing = needed.filter((name) => !used.some((track) => track.name === name));
  if (missing.length > 0) {
    const names = missing.map((name) => `${signals[name].name} (SPN ${signals[name].spn})`);
    return `No reading can be made of the log: it never shows ${names.join(', nor ')}.`;
  }
  return `No reading can be made of the log: no part of it shows one state of the lockup, with both speeds, for ${log.fold.shortestS} s.`;
}
