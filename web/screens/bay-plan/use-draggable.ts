import { draggable } from '@atlaskit/pragmatic-drag-and-drop/adapter/element-adapter';
import { type RefObject, useEffect } from 'react';
import type { Item } from './plan-items.ts';
import { readDrop } from './use-drop-places.ts';
import { type PlanHand, toPlace } from './use-plan-hand.ts';

/** Lets an element be taken up by mouse or finger. */
export function useDraggable(
  ref: RefObject<HTMLElement | null>,
  item: Item,
  { begin, aim, put, giveUp }: PlanHand,
  canMove: boolean,
): void {
  useEffect(() => {
    const element = ref.current;
    if (element === null || !canMove) return;
    return draggable({
      element,
      onGenerateDragPreview: () => {
        element.dataset.taken = '';
      },
      onDragStart: () => begin(item, 'hand', toPlace(item)),
      onDrop: ({ location }) => {
        delete element.dataset.taken;
        const place = readDrop(location.current.dropTargets);
        // The hand may have moved since the last frame.
        aim(place);
        if (place === null) giveUp();
        else put();
      },
    });
  }, [ref, item, begin, aim, put, giveUp, canMove]);
}
