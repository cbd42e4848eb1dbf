import { type FocusEvent, type KeyboardEvent, type RefObject, useLayoutEffect, useRef } from 'react';
import type { Grid } from './lay-out-grid.ts';
import type { Item } from './plan-items.ts';
import type { Place } from './plan-search.ts';
import { type Direction, findStart, stepPlace } from './step-place.ts';
import { readCell } from './use-drop-places.ts';
import { isSamePlace, type PlanHand, toPlace } from './use-plan-hand.ts';

const arrows: Readonly<Record<string, Direction>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

interface Actions {
  findItem: (key: string) => Item | undefined;
  canChange: boolean;
  onPlace: (place: Place) => void;
  onTick: (item: Item) => void;
}

/**
 * One stop of the Tab key for the whole grid: arrows go from cell to cell and from card to card. While a card is carried
 * by keys the same arrows go through the places that are open.
 */
export function useGridKeys(
  root: RefObject<HTMLElement | null>,
  grid: Grid,
  hand: PlanHand,
  actions: Actions,
) {
  const last = useRef<HTMLElement | null>(null);
  /** card that shall have the focus once it is drawn at its new place */
  const wanted = useRef<{ key: string; place: Place } | null>(null);
  const cardOf = (key: string) =>
    document.querySelector<HTMLElement>(`main [data-card="${CSS.escape(key)}"]`);
  useLayoutEffect(() => {
    if (wanted.current === null) return;
    const { key, place } = wanted.current;
    const card = cardOf(key);
    const lies = card === null ? null : readCell(grid, card.closest<HTMLElement>('[data-row][data-day]'));
    if (card === null || lies === null || !isSamePlace(lies, place)) return;
    wanted.current = null;
    focusOn(card);
  });

  const cellAt = (row: number, day: number) =>
    root.current?.querySelector<HTMLElement>(`[data-row="${row}"][data-day="${day}"]`) ?? null;
  const cellOf = (place: Place) =>
    cellAt(
      grid.rows.findIndex(({ depot, bay }) => depot.id === place.depot && bay === place.bay),
      grid.days.findIndex(({ day }) => day === place.day),
    );

  function takeUp(item: Item): void {
    const own = toPlace(item);
    const start = own !== null && cellOf(own) !== null ? own : findStart(grid, item.of.depot);
    hand.begin(item, 'keys', null);
    if (start === null) hand.giveUp();
    else {
      hand.aim(start);
      focusOn(cellOf(start));
    }
  }

  function carryOn(event: KeyboardEvent): void {
    const carried = hand.carry.get();
    if (carried === null) return;
    const direction = arrows[event.key];
    if (direction !== undefined && carried.place !== null) {
      const next = stepPlace(grid, carried.place, direction);
      if (next !== null) {
        hand.aim(next);
        focusOn(cellOf(next));
      }
    } else if (event.key === 'Enter') {
      const { item, place } = carried;
      const isPut = hand.put(() => {
        if (place !== null) wanted.current = { key: item.key, place };
      });
      if (!isPut && hand.carry.get() === null) focusOn(cardOf(item.key));
    } else if (event.key === 'Escape' || event.key === 'Tab') {
      hand.giveUp();
      if (event.key === 'Tab') return;
      focusOn(cardOf(carried.item.key));
    }
    event.preventDefault();
    event.stopPropagation();
  }

  function onKeyDown(event: KeyboardEvent<HTMLElement>): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (hand.carry.get()?.by === 'keys') {
      carryOn(event);
      return;
    }
    const at = event.target instanceof HTMLElement ? event.target : null;
    const cell = at?.closest<HTMLElement>('[data-row][data-day]') ?? null;
    if (at === null || cell === null) return;
    const direction = arrows[event.key];
    if (direction !== undefined) focusOn(findNext(at, cell, direction, cellAt));
    else if (event.key === 'Home' || event.key === 'End')
      focusOn(
        stopIn(cellAt(Number(cell.dataset.row), event.key === 'Home' ? 0 : grid.days.length - 1), 'first'),
      );
    else if (!act(event.key, at, cell)) return;
    event.preventDefault();
  }

  /** What the other keys do; false where the browser is to do what it does. */
  function act(key: string, at: HTMLElement, cell: HTMLElement): boolean {
    const item = actions.findItem(at.dataset.card ?? '');
    const place = readCell(grid, cell);
    switch (key) {
      case 'm':
        if (item === undefined || at.dataset.fixed !== undefined || !actions.canChange) return false;
        takeUp(item);
        return true;
      case 'x':
        if (item?.kind !== 'draft') return false;
        actions.onTick(item);
        return true;
      case 'b':
        if (place === null || !actions.canChange) return false;
        actions.onPlace(place);
        return true;
      case ' ':
        at.click();
        return true;
      case 'Enter':
        if (place === null || at !== cell || !actions.canChange) return false;
        actions.onPlace(place);
        return true;
      default:
        return false;
    }
  }

  function onFocus(event: FocusEvent<HTMLElement>): void {
    const own = root.current;
    if (own === null) return;
    if (event.target === own) {
      const before = last.current?.isConnected ? last.current : null;
      focusOn(before ?? own.querySelector<HTMLElement>('[data-card]') ?? cellAt(1, 0));
      return;
    }
    last.current = event.target;
    // Going back by Tab must leave the grid, not come to its beginning.
    own.tabIndex = -1;
  }

  function onBlur(event: FocusEvent<HTMLElement>): void {
    const own = root.current;
    if (own === null || (event.relatedTarget instanceof Node && own.contains(event.relatedTarget))) return;
    own.tabIndex = 0;
    if (wanted.current === null && hand.carry.get()?.by === 'keys') hand.giveUp();
  }

  return { onKeyDown, onFocus, onBlur, takeUp };
}

/** What of a cell takes the focus: its cards, or itself where it has none. */
function stopIn(cell: HTMLElement | null, which: 'first' | 'last'): HTMLElement | null {
  if (cell === null) return null;
  const stops = cell.querySelectorAll<HTMLElement>('[data-stop]');
  return (which === 'first' ? stops[0] : stops[stops.length - 1]) ?? cell;
}

function findNext(
  at: HTMLElement,
  cell: HTMLElement,
  direction: Direction,
  cellAt: (row: number, day: number) => HTMLElement | null,
): HTMLElement | null {
  const row = Number(cell.dataset.row);
  const day = Number(cell.dataset.day);
  if (direction === 'left') return stopIn(cellAt(row, day - 1), 'first');
  if (direction === 'right') return stopIn(cellAt(row, day + 1), 'first');
  const stops = [...cell.querySelectorAll<HTMLElement>('[data-stop]')];
  const next = stops[stops.indexOf(at) + (direction === 'down' ? 1 : -1)];
  if (next !== undefined && stops.includes(at)) return next;
  return direction === 'down' ? stopIn(cellAt(row + 1, day), 'first') : stopIn(cellAt(row - 1, day), 'last');
}

function focusOn(element: HTMLElement | null): void {
  element?.focus({ preventScroll: true });
  element?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
}
