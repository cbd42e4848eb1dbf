import { ScrollArea } from '#web/ui/scroll-area.tsx';
import type { Preview } from './reading/messages.ts';
import styles from './workbench.module.css';

/** The first rows as they were cut. */
export function PreviewTable({ preview }: { preview: Preview }) {
  return (
    <ScrollArea label="First rows of the table">
      <table className={styles.table}>
        <thead>
          <tr>
            {preview.columns.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {preview.first.map((cells, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows have no identity of their own and never move
            <tr key={i}>
              {preview.columns.map((name, j) => (
                <td key={name}>{shorten(cells[j] ?? '')}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollArea>
  );
}

const shorten = (cell: string): string => (cell.length > 60 ? `${cell.slice(0, 60)}…` : cell);
