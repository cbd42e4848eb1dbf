import { type RefObject, useEffect, useState } from 'react';
import type { Carry } from './carry.ts';

const restMs = 280;

/** The card on which the pointer rests or the keyboard's focus lies; none while something is carried, or after Escape. */
export function useCardUnder(root: RefObject<HTMLElement | null>, carry: Carry): HTMLElement | null {
  const [card, setCard] = useState<HTMLElement | null>(null);
  useEffect(() => {
    const own = root.current;
    if (own === null) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const wait = (next: HTMLElement | null) => {
      clearTimeout(timer);
      if (next === null) setCard(null);
      else timer = setTimeout(() => setCard(carry.get() === null ? next : null), restMs);
    };
    const cardOf = (event: Event) =>
      event.target instanceof Element ? event.target.closest<HTMLElement>('[data-card]') : null;
    const over = (event: PointerEvent) => {
      if (event.pointerType !== 'touch') wait(cardOf(event));
    };
    const focus = (event: FocusEvent) => {
      const next = cardOf(event);
      if (next?.matches(':focus-visible')) wait(next);
    };
    const leave = () => wait(null);
    const leaveOnEscape = (event: KeyboardEvent) => {
      if (event.key === 'Escape') wait(null);
    };
    own.addEventListener('pointerover', over);
    own.addEventListener('pointerleave', leave);
    own.addEventListener('focusin', focus);
    own.addEventListener('focusout', leave);
    own.addEventListener('keydown', leaveOnEscape);
    const unsubscribe = carry.subscribe(leave);
    return () => {
      clearTimeout(timer);
      own.removeEventListener('pointerover', over);
      own.removeEventListener('pointerleave', leave);
      own.removeEventListener('focusin', focus);
      own.removeEventListener('focusout', leave);
      own.removeEventListener('keydown', leaveOnEscape);
      unsubscribe();
    };
  }, [root, carry]);
  return card;
}
