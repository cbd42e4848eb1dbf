// biome-ignore-all lint/a11y/useSemanticElements: a table cannot keep its head in sight and scroll sideways at once
// biome-ignore-all lint/a11y/useFocusableInteractive: the arrow keys of the grid give the focus to cells and cards
import { type MouseEvent, type RefObject, useMemo, useRef } from 'react';
import { useWidth } from '#web/charts/use-width.ts';
import { isMonday } from '#web/format/days.ts';
import { formatDay, formatMonth, formatWeekday } from '#web/format/format-day.ts';
import { CardNote } from './card-note.tsx';
import { DepotRows } from './depot-rows.tsx';
import { DropFrame } from './drop-frame.tsx';
import type { Grid } from './lay-out-grid.ts';
import { measureGrid } from './measure-grid.ts';
import styles from './plan-grid.module.css';
import type { Item } from './plan-items.ts';
import { useDropPlaces } from './use-drop-places.ts';
import { useGradualCount } from './use-gradual-count.ts';
import type { useGridKeys } from './use-grid-keys.ts';
import type { GridLinks } from './use-grid-links.ts';
import type { PlanHand } from './use-plan-hand.ts';

interface Props {
  root: RefObject<HTMLDivElement | null>;
  grid: Grid;
  hand: PlanHand;
  keys: Pick<ReturnType<typeof useGridKeys>, 'onKeyDown' | 'onFocus' | 'onBlur'>;
  links: GridLinks;
  findItem: (key: string) => Item | undefined;
  openKey: string | null;
  onClick: (event: MouseEvent<HTMLElement>) => void;
  canChange: boolean;
}

/** Days across, depots and their bays down. */
export function PlanGrid({ root, grid, hand, keys, links, findItem, openKey, canChange, onClick }: Props) {
  const head = useRef<HTMLDivElement>(null);
  const body = useRef<HTMLDivElement>(null);
  const sheet = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(root);
  const { style, density } = useMemo(() => measureGrid(grid.days, widthPx), [grid.days, widthPx]);
  useDropPlaces(sheet, grid, hand);
  const drawn = useGradualCount(grid.depots.length);
  return (
    <div
      ref={root}
      className={styles.grid}
      style={style}
      data-density={density}
      role="grid"
      aria-label="Bays and days"
      aria-rowcount={grid.rows.length + 1}
      tabIndex={0}
      onKeyDown={keys.onKeyDown}
      onFocus={keys.onFocus}
      onBlur={keys.onBlur}
      onClick={onClick}
    >
      <div ref={head} className={styles.head} role="rowgroup">
        <div className={styles.row} role="row" aria-rowindex={1}>
          <span className={styles.corner} role="columnheader">
            <span className="only-spoken">Bay</span>
          </span>
          {grid.days.map(({ day, narrow, today }, i) => (
            <span
              key={day}
              className={styles.dayHead}
              role="columnheader"
              aria-label={`${formatDay(day)}${today ? ', today' : ''}`}
              data-today={today || undefined}
              data-narrow={narrow || undefined}
              data-week={isMonday(day) || undefined}
            >
              <span className={styles.weekday}>
                {narrow ? formatWeekday(day).slice(0, 2) : formatWeekday(day)}
              </span>
              <span className={styles.date}>
                {Number(day.slice(8))}
                {(i === 0 || day.endsWith('-01')) && !narrow && <small> {formatMonth(day)}</small>}
              </span>
              {today && !narrow && <span className={styles.today}>today</span>}
            </span>
          ))}
        </div>
      </div>
      <div
        ref={body}
        className={styles.body}
        role="presentation"
        onScroll={(event) => {
          if (head.current !== null) head.current.scrollLeft = event.currentTarget.scrollLeft;
        }}
      >
        <div ref={sheet} className={styles.sheet} role="presentation">
          {grid.depots.slice(0, drawn).map((one) => (
            <DepotRows
              key={one.depot.id}
              depot={one.depot}
              firstRow={one.firstRow}
              bays={one.bays}
              bookings={one.bookings}
              drafts={one.drafts}
              days={grid.days}
              hand={hand}
              links={links}
              openKey={openKey !== null && isHere(one, openKey) ? openKey : null}
              canChange={canChange}
            />
          ))}
          <DropFrame carry={hand.carry} sheet={sheet} grid={grid} />
          <CardNote sheet={sheet} root={root} carry={hand.carry} findItem={findItem} />
        </div>
      </div>
    </div>
  );
}

const isHere = ({ bookings, drafts }: Grid['depots'][number], key: string): boolean =>
  bookings.some(({ id }) => `b${id}` === key) || drafts.some(({ vehicle }) => `p${vehicle}` === key);
