import type { ReactNode } from 'react';
import styles from './scroll-area.module.css';

/** What may be wider than its place, and is then moved by the arrow keys. */
export const ScrollArea = ({ label, children }: { label: string; children: ReactNode }) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by key
  <section className={styles.area} tabIndex={0} aria-label={label}>
    {children}
  </section>
);
