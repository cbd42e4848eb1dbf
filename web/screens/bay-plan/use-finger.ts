import { type RefObject, useEffect, useLayoutEffect, useRef } from 'react';
import type { Grid } from './lay-out-grid.ts';
import type { Item } from './plan-items.ts';
import { findPlaceAt } from './use-drop-places.ts';
import { type PlanHand, toPlace } from './use-plan-hand.ts';

const holdMs = 350;
const stillPx = 10;
const edgePx = 70;
const stepPx = 12;

/**
 * A card that is held for a moment is taken up by the finger; one that is moved at once scrolls the page as ever. The
 * browser's own drag by touch is not used: not every system has it.
 */
export function useFinger(
  area: RefObject<HTMLElement | null>,
  grid: Grid,
  { carry, begin, aim, put, giveUp }: PlanHand,
  findItem: (key: string) => Item | undefined,
): void {
  // The plan is asked for again now and then, also while something is carried.
  const latest = useRef({ grid, findItem });
  useLayoutEffect(() => {
    latest.current = { grid, findItem };
  });
  useEffect(() => {
    const own = area.current;
    if (own === null) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let start: { x: number; y: number } | null = null;
    const isCarrying = () => carry.get()?.by === 'finger';

    const down = (event: TouchEvent) => {
      const [touch] = event.touches;
      const card = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-card]') : null;
      const item = latest.current.findItem(card?.dataset.card ?? '');
      clearTimeout(timer);
      if (touch === undefined || event.touches.length > 1 || item === undefined) return;
      if (card?.dataset.fixed !== undefined) return;
      start = { x: touch.clientX, y: touch.clientY };
      timer = setTimeout(() => begin(item, 'finger', toPlace(item)), holdMs);
    };
    const move = (event: TouchEvent) => {
      const [touch] = event.touches;
      if (touch === undefined || start === null) return;
      const { clientX: x, clientY: y } = touch;
      if (!isCarrying()) {
        if (Math.hypot(x - start.x, y - start.y) > stillPx) clearTimeout(timer);
        return;
      }
      // Or the page would scroll away below the finger.
      event.preventDefault();
      if (y < edgePx) window.scrollBy(0, -stepPx);
      else if (y > window.innerHeight - edgePx) window.scrollBy(0, stepPx);
      aim(findPlaceAt(latest.current.grid, { x, y }));
    };
    const up = (event: TouchEvent) => {
      clearTimeout(timer);
      start = null;
      if (!isCarrying()) return;
      // No press follows that would open the card.
      event.preventDefault();
      put();
    };
    const cancel = () => {
      clearTimeout(timer);
      start = null;
      if (isCarrying()) giveUp();
    };
    // Holding a link would offer what can be done with links.
    const menu = (event: Event) => {
      if (start !== null) event.preventDefault();
    };
    own.addEventListener('touchstart', down, { passive: true });
    own.addEventListener('touchmove', move, { passive: false });
    own.addEventListener('touchend', up);
    own.addEventListener('touchcancel', cancel);
    own.addEventListener('contextmenu', menu);
    return () => {
      cancel();
      own.removeEventListener('touchstart', down);
      own.removeEventListener('touchmove', move);
      own.removeEventListener('touchend', up);
      own.removeEventListener('touchcancel', cancel);
      own.removeEventListener('contextmenu', menu);
    };
  }, [area, carry, begin, aim, put, giveUp]);
}
