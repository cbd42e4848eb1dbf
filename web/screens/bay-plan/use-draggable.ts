import { draggable } from '@atlaskit/pragmatic-drag-and-drop/adapter/element-adapter';
import { type RefObject, useEffect } from 'react';
import type { Item } from './plan-items.ts';
import { readDrop } from './use-drop-places.ts';
import { type PlanHand, toPlace } from './use-plan-hand.ts';

/** Lets an element be taken up by mouse. */
export function useDraggable(
  ref: RefObject<HTMLElement | null>,
  item: Item,
  { begin, aim, put, giveUp }: PlanHand,
  canMove: boolean,
): void {
  useEffect(() => {
    const element = ref.current;
    if (element === null || !canMove) return;
    let isTouched = false;
    const note = (event: PointerEvent) => {
      isTouched = event.pointerType === 'touch';
    };
    element.addEventListener('pointerdown', note);
    const stop = draggable({
      element,
      // Fingers have their own way, on every system the same.
      canDrag: () => !isTouched,
      onGenerateDragPreview: () => {
        element.dataset.taken = '';
      },
      onDragStart: () => begin(item, 'mouse', toPlace(item)),
      onDrop: ({ location }) => {
        delete element.dataset.taken;
        const place = readDrop(location.current.dropTargets);
        // The hand may have moved since the last frame.
        aim(place);
        if (place === null) giveUp();
        else put();
      },
    });
    return () => {
      element.removeEventListener('pointerdown', note);
      stop();
    };
  }, [ref, item, begin, aim, put, giveUp, canMove]);
}
