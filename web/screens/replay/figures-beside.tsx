import type { ReactNode } from 'react';
import { ScrollArea } from '#web/ui/scroll-area.tsx';
import styles from './replay.module.css';

interface Props {
  label: string;
  /** what stands over the names of the figures */
  corner: string;
  heads: readonly { key: string; words: ReactNode }[];
  rows: readonly { name: string; values: readonly string[] }[];
}

/** A figure a line, each column another way of asking: narrow enough for a phone. */
export const FiguresBeside = ({ label, corner, heads, rows }: Props) => (
  <ScrollArea label={label}>
    <table className={styles.beside}>
      <thead>
        <tr>
          <th scope="col">{corner}</th>
          {heads.map(({ key, words }) => (
            <th key={key} scope="col">
              {words}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, values }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {values.map((value, i) => (
              <td key={heads[i]?.key}>{value}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </ScrollArea>
);
