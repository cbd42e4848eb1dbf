// biome-ignore-all lint/a11y/useSemanticElements: a table cannot keep its head in sight and scroll sideways at once
// biome-ignore-all lint/a11y/useFocusableInteractive: the arrow keys of the grid give the focus to cells and cards
import { memo, useMemo } from 'react';
import { BayRow } from './bay-row.tsx';
import type { GridDay, GridDepot } from './lay-out-grid.ts';
import { sortIntoCells, sumProposed } from './lay-out-grid.ts';
import { LoadCell } from './load-cell.tsx';
import styles from './plan-grid.module.css';
import type { GridLinks } from './use-grid-links.ts';
import type { PlanHand } from './use-plan-hand.ts';

interface Props extends GridDepot {
  days: readonly GridDay[];
  hand: PlanHand;
  links: GridLinks;
  /** the card that is open beside the grid, where it lies here */
  openKey: string | null;
  canChange: boolean;
}

/** One depot: its load by day, and its bays. Drawn again only where something of its own has changed. */
export const DepotRows = memo(function DepotRows(props: Props) {
  const { depot, firstRow, bays, bookings, drafts, days } = props;
  const cells = useMemo(() => sortIntoCells(bookings, drafts), [bookings, drafts]);
  const proposed = useMemo(() => sumProposed(drafts), [drafts]);
  return (
    <div className={styles.depot} role="rowgroup" aria-label={depot.name}>
      <div className={styles.row} role="row" aria-rowindex={firstRow + 2} data-kind="load">
        <span className={styles.depotName} role="rowheader" title={depot.name}>
          <span>{depot.name}</span>
        </span>
        {days.map(({ day, narrow, today }, i) => (
          <LoadCell
            key={day}
            row={firstRow}
            index={i}
            depot={depot}
            day={depot.days[i]}
            narrow={narrow}
            today={today}
            proposedHours={proposed.get(day) ?? 0}
            href={props.links.toDay(depot.id, day)}
          />
        ))}
      </div>
      {Array.from({ length: bays }, (_, i) => i + 1).map((bay) => (
        <BayRow key={bay} {...props} bay={bay} row={firstRow + bay} cells={cells} />
      ))}
    </div>
  );
}, isSame);

function isSame(a: Props, b: Props): boolean {
  const keys = ['depot', 'firstRow', 'bays', 'days', 'hand', 'links', 'openKey', 'canChange'] as const;
  return (
    keys.every((key) => a[key] === b[key]) &&
    isSameList(a.bookings, b.bookings) &&
    isSameList(a.drafts, b.drafts)
  );
}

const isSameList = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((one, i) => one === b[i]);
