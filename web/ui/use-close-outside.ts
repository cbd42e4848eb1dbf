import { type RefObject, useEffect } from 'react';

/** Closes an opened `details` on Escape and on a press anywhere else. */
export function useCloseOutside(panel: RefObject<HTMLDetailsElement | null>): void {
  useEffect(() => {
    const close = (event: Event) => {
      const details = panel.current;
      if (details === null || !details.open) return;
      if (event instanceof KeyboardEvent) {
        if (event.key !== 'Escape') return;
        details.querySelector('summary')?.focus();
      } else if (event.target instanceof Node && details.contains(event.target)) return;
      details.open = false;
    };
    document.addEventListener('pointerdown', close);
    document.addEventListener('keydown', close);
    return () => {
      document.removeEventListener('pointerdown', close);
      document.removeEventListener('keydown', close);
    };
  }, [panel]);
}
