import { useCallback, useEffect, useRef } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
import type { Choose } from './shown-rows.ts';
import type { ListState } from './use-list-state.ts';

/** Ticking rows one by one, or with Shift from one to another. Stays the same function while the list is scrolled. */
export function useChoose(rows: readonly RankingRow[], { choose, chosenSet }: ListState): Choose {
  const last = useRef<string | null>(null);
  const now = useRef({ rows, chosenSet });
  useEffect(() => {
    now.current = { rows, chosenSet };
  });
  return useCallback(
    (index, withShift) => {
      const { rows: shown, chosenSet: chosen } = now.current;
      const vehicle = shown[index]?.vehicle;
      if (vehicle === undefined) return;
      const ticks = !chosen.has(vehicle);
      const before = withShift ? shown.findIndex((row) => row.vehicle === last.current) : -1;
      last.current = vehicle;
      if (before === -1) return choose([vehicle], ticks);
      const [from, to] = before < index ? [before, index] : [index, before];
      choose(
        shown.slice(from, to + 1).map((row) => row.vehicle),
        ticks,
      );
    },
    [choose],
  );
}
