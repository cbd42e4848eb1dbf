import type { ReactNode } from 'react';
import { ScrollArea } from '#web/ui/scroll-area.tsx';
import styles from './lives.module.css';

/** A table that may be wider than its place, and then scrolls, by key too; on a phone each row is a block of lines. */
export const ScrollTable = ({ label, children }: { label: string; children: ReactNode }) => (
  <ScrollArea label={label}>
    <table className={styles.table}>{children}</table>
  </ScrollArea>
);

interface CellProps {
  /** what the column's head says, for rows that are blocks of lines */
  label: string;
  isWords?: boolean;
  children: ReactNode;
}

export const Cell = ({ label, isWords = false, children }: CellProps) => (
  <td data-label={label} className={isWords ? styles.words : undefined}>
    <span>{children}</span>
  </td>
);
