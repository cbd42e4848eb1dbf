import { dropTargetForElements } from '@atlaskit/pragmatic-drag-and-drop/adapter/element-adapter';
import { getElementFromPointWithoutHoneypot } from '@atlaskit/pragmatic-drag-and-drop/get-element-from-point-without-honey-pot';
import { type RefObject, useEffect } from 'react';
import type { Grid } from './lay-out-grid.ts';
import type { Place } from './plan-search.ts';
import type { PlanHand } from './use-plan-hand.ts';

/** The whole grid takes what is dragged; which place of it is found by the pointer, so that cells need no listeners. */
export function useDropPlaces(body: RefObject<HTMLElement | null>, grid: Grid, { aim }: PlanHand): void {
  useEffect(() => {
    const element = body.current;
    if (element === null) return;
    return dropTargetForElements({
      element,
      getData: ({ input: { clientX: x, clientY: y } }) => {
        const place = findPlaceAt(grid, { x, y });
        return { find: () => place } satisfies DropData;
      },
      onDrag: ({ location }) => aim(readDrop(location.current.dropTargets)),
      onDragLeave: () => aim(null),
    });
  }, [body, grid, aim]);
}

/** The place of the grid at a point of the window. */
export function findPlaceAt(grid: Grid, point: { x: number; y: number }): Place | null {
  const under = getElementFromPointWithoutHoneypot(point);
  return readCell(grid, under?.closest<HTMLElement>('[data-row][data-day]') ?? null);
}

type DropData = { find: () => Place | null };

/** The place over which something is held; null where it is over none. */
export function readDrop(targets: readonly { data: Record<string | symbol, unknown> }[]): Place | null {
  const { find } = (targets[0]?.data ?? {}) as Partial<DropData>;
  return find?.() ?? null;
}

/** The place that a cell of the grid stands for; null for the load of a depot and for what is no cell. */
export function readCell({ rows, days }: Grid, cell: HTMLElement | null): Place | null {
  const row = rows[Number(cell?.dataset.row)];
  const day = days[Number(cell?.dataset.day)];
  if (row === undefined || day === undefined || row.bay === null) return null;
  return { depot: row.depot.id, bay: row.bay, day: day.day };
}
