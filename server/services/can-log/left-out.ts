import type { CanSummary } from '#server/contract/looks.ts';
import { type LineKind, lineKinds } from './line-kinds.ts';

type LeftOut = CanSummary['left_out'][number];

/** Counts what is left out of a log, with the first example of each kind. */
export function createLeftOut() {
  const kinds = new Map<string, LeftOut>();

  const add = (why: string, line: number, raw: string, times = 1): void => {
    const known = kinds.get(why);
    if (known === undefined) kinds.set(why, { why, lines: times, first_line: line, raw });
    else known.lines += times;
  };

  return {
    add,
    addLine: (kind: LineKind, line: number, raw: string): void => add(lineKinds[kind], line, raw),
    isFirst: (kind: LineKind): boolean => !kinds.has(lineKinds[kind]),
    /** most first */
    list: (): LeftOut[] => [...kinds.values()].sort((a, b) => b.lines - a.lines),
  };
}
