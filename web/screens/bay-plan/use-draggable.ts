import { draggable } from '@atlaskit/pragmatic-drag-and-drop/adapter/element-adapter';
import { type RefObject, useEffect } from 'react';
import type { Item } from './plan-items.ts';
import { type PlanHand, toPlace } from './use-plan-hand.ts';

/** Lets an element be taken up by mouse or finger. */
export function useDraggable(
  ref: RefObject<HTMLElement | null>,
  item: Item,
  { begin, put, giveUp }: PlanHand,
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
        if (location.current.dropTargets.length === 0) giveUp();
        else put();
      },
    });
  }, [ref, item, begin, put, giveUp, canMove]);
}
