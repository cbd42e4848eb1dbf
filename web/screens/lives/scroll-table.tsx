import type { ReactNode } from 'react';
import styles from './lives.module.css';

/** A table that may be wider than a phone; it then scrolls, by key too. */
export const ScrollTable = ({ label, children }: { label: string; children: ReactNode }) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by key
  <section className={styles.scroll} tabIndex={0} aria-label={label}>
    <table className={styles.table}>{children}</table>
  </section>
);
