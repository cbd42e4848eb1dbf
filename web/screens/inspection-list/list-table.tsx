import styles from './list-table.module.css';
import { rowProps } from './row-props.ts';
import type { ShownRows } from './shown-rows.ts';
import { TableHead } from './table-head.tsx';
import { TableRow } from './table-row.tsx';
import { useColumns } from './use-columns.ts';

/** One line a vehicle. Each row is a row group of its own, so that it can open in place. */
export function ListTable(shown: ShownRows) {
  const columns = useColumns(shown.onChoose !== null);
  return (
    <table className={styles.table} aria-rowcount={shown.total + 1} data-columns={columns.count}>
      <caption className="only-spoken">Vehicles in the order in which inspecting them avoids most</caption>
      <TableHead
        columns={columns}
        horizonKm={shown.horizonKm}
        scaleKm={shown.scaleKm}
        all={shown.all}
        state={shown.state}
      />
      <Space height={shown.spaceBefore} span={columns.count} />
      {shown.items.map((item) => {
        const row = shown.rows[item.index];
        return row === undefined ? null : (
          <TableRow key={item.key} columns={columns} {...rowProps(shown, row, item.index)} />
        );
      })}
      <Space height={shown.spaceAfter} span={columns.count} />
    </table>
  );
}

/** Stands for the rows out of sight. */
function Space({ height, span }: { height: number; span: number }) {
  if (height <= 0) return null;
  return (
    <tbody aria-hidden="true">
      <tr>
        <td colSpan={span} className={styles.space} style={{ height }} />
      </tr>
    </tbody>
  );
}
