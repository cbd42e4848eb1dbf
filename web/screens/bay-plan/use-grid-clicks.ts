import type { MouseEvent } from 'react';
import type { Grid } from './lay-out-grid.ts';
import type { Item } from './plan-items.ts';
import type { Place } from './plan-search.ts';
import type { BayPlanState } from './use-bay-plan-state.ts';
import { readCell } from './use-drop-places.ts';
import { openItem } from './use-grid-links.ts';

interface Actions {
  findItem: (key: string) => Item | undefined;
  change: BayPlanState['change'];
  /** null for somebody who only looks */
  onPlace: ((place: Place) => void) | null;
}

/** A press on a card opens it, on the load of a depot its day, on an empty place a new booking. */
export function followClick(
  event: MouseEvent<HTMLElement>,
  grid: Grid,
  { findItem, change, onPlace }: Actions,
) {
  const { target } = event;
  if (!(target instanceof Element) || event.defaultPrevented) return;
  if (event.metaKey || event.ctrlKey || event.shiftKey) return;
  const cell = target.closest<HTMLElement>('[data-row][data-day]');
  const link = target.closest<HTMLElement>('a');
  if (link === null) {
    const place = cell?.dataset.open === undefined ? null : readCell(grid, cell);
    if (place !== null) onPlace?.(place);
    return;
  }
  event.preventDefault();
  const item = findItem(link.dataset.card ?? '');
  if (item !== undefined) return change(openItem(item), 'step');
  const depot = grid.rows[Number(cell?.dataset.row)]?.depot.id;
  const day = grid.days[Number(cell?.dataset.day)]?.day;
  if (depot !== undefined && day !== undefined) change({ view: 'day', depot, day }, 'step');
}
