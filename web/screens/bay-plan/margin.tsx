import { type ReactNode, useEffect, useRef } from 'react';
import { Button } from '#web/ui/button.tsx';
import styles from './beside.module.css';

/** Takes the focus when it opens and gives it back when it closes. */
export function Margin({
  title,
  children,
  onClose,
}: {
  title: string;
  children: ReactNode;
  onClose: () => void;
}) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    head.current?.focus({ preventScroll: true });
    head.current?.scrollIntoView({ block: 'nearest' });
    return () => {
      // Whoever works elsewhere by now, as in another card, stays there.
      if (document.activeElement !== document.body) return;
      const isThere = before instanceof HTMLElement && before !== document.body && before.isConnected;
      const to = isThere ? before : document.querySelector<HTMLElement>('main [role="grid"]');
      to?.focus({ preventScroll: true });
    };
  }, []);
  return (
    <aside
      className={styles.margin}
      aria-label={title}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || event.defaultPrevented) return;
        if (document.querySelector('dialog[open]') === null) onClose();
      }}
    >
      <div className={styles.top}>
        <h2 ref={head} tabIndex={-1}>
          {title}
        </h2>
        <Button kind="quiet" onClick={onClose}>
          Close
        </Button>
      </div>
      {children}
    </aside>
  );
}

/** Gives the focus that went with something within the margin to its head. */
export function keepFocus(): void {
  if (document.activeElement === document.body)
    document.querySelector<HTMLElement>('main aside h2')?.focus({ preventScroll: true });
}

/** Does so once the part that uses it is gone. */
export const useKeptFocus = (): void => useEffect(() => keepFocus, []);
