import { type RefObject, useEffect, useRef } from 'react';

/**
 * Gives the focus to what follows where a change has taken away what had it: keys and reading go on there, or in the
 * screen where that is gone too.
 */
export function useKeptFocus<Part extends HTMLElement>(change: unknown): RefObject<Part | null> {
  const part = useRef<Part>(null);
  const before = useRef(change);
  useEffect(() => {
    if (before.current !== change && document.activeElement === document.body)
      (part.current ?? document.getElementById('content'))?.focus({ preventScroll: true });
    before.current = change;
  }, [change]);
  return part;
}
