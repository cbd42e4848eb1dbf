import type { ReactNode } from 'react';
import styles from './row-table.module.css';
import { ScrollArea } from './scroll-area.tsx';

interface Props {
  label: string;
  children: ReactNode;
}

/** A table that may be wider than its place, and then scrolls, by key too; on a phone each row is a block of lines. */
export const RowTable = ({ label, children }: Props) => (
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
  <td data-label={label} data-words={isWords || undefined}>
    <span>{children}</span>
  </td>
);

/** Says across several columns why they have no figures. */
export const MissingCell = ({ columns, children }: { columns: number; children: ReactNode }) => (
  <td colSpan={columns} data-missing>
    {children}
  </td>
);
