import type { ReactNode } from 'react';
import styles from './replay.module.css';

/** A table that may be wider than its place, and is then moved by the arrow keys. */
export const TableScroll = ({ label, children }: { label: string; children: ReactNode }) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: what can be moved must take the focus
  <section className={styles.scroll} tabIndex={0} aria-label={label}>
    {children}
  </section>
);
