import type { RoadTrace } from '#server/contract/test-steps.ts';
import { formatPercent } from '#web/format/format-percent.ts';

export interface AsideSum {
  says: string;
  seconds: number;
}

/** Seconds set aside by reason, the most first. */
export function sumAside({ set_aside }: Pick<RoadTrace, 'set_aside'>): AsideSum[] {
  const sums = new Map<string, number>();
  for (const { says, from_s, to_s } of set_aside) sums.set(says, (sums.get(says) ?? 0) + to_s - from_s);
  return [...sums].map(([says, seconds]) => ({ says, seconds })).toSorted((a, b) => b.seconds - a.seconds);
}

/** How much of a road test was steady, in a sentence. */
export function saySteady({ steady, seconds }: Pick<RoadTrace, 'steady' | 'seconds'>): string {
  const held = steady.reduce((sum, { from_s, to_s }) => sum + to_s - from_s, 0);
  const all = Math.max(held, (seconds.at(-1) ?? 0) - (seconds[0] ?? 0));
  if (steady.length === 0) return `None of ${sayLength(all)} was steady lockup.`;
  const parts = steady.length === 1 ? 'one stretch' : `${steady.length} stretches`;
  return `${sayLength(held)} of ${sayLength(all)} (${formatPercent(held / all)}) were steady lockup, in ${parts}.`;
}

export function sayLength(seconds: number): string {
  if (seconds < 120) return `${Math.max(1, Math.round(seconds))} s`;
  return `${Math.round(seconds / 60)} min`;
}
