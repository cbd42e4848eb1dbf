import type { ObservedLife } from '#server/engine/life/life-model.ts';
import type { PublishedCase } from './published-case.ts';

interface Columns {
  time?: number[];
  entry?: number[];
  exit?: number[];
  status?: number[];
  cause?: number[];
  count?: number[];
}

/** The lives of a case, in its order. */
export function observeCase(one: PublishedCase): ObservedLife[] {
  return observe(one.input as Columns);
}

/** The same by group. */
export function observeGroups(one: PublishedCase): Map<string, ObservedLife[]> {
  const { groups } = one.input as { groups: (Columns & { name: string })[] };
  return new Map(groups.map(({ name, ...columns }) => [name, observe(columns)]));
}

function observe({ time, exit = time ?? [], entry, status, cause, count }: Columns): ObservedLife[] {
  return exit.map((x, i) => ({
    entry: entry?.[i] ?? 0,
    exit: x,
    event: (status ?? cause)?.[i] !== 0,
    count: count?.[i] ?? 1,
    ...(cause === undefined || cause[i] === 0 ? {} : { mode: `${cause[i]}` }),
  }));
}
