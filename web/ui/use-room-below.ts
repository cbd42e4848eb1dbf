import { type RefObject, useEffect } from 'react';

/** Keeps the height that the panel covers free at the end of the page and below a focused row. */
export function useRoomBelow(panel: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const element = panel.current;
    if (element === null) return;
    const root = document.documentElement;
    const observer = new ResizeObserver(() => {
      root.style.setProperty('--covered-below', `${element.offsetHeight}px`);
    });
    observer.observe(element);
    return () => {
      observer.disconnect();
      root.style.removeProperty('--covered-below');
    };
  }, [panel]);
}
