// biome-ignore-all lint/a11y/useSemanticElements: a table cannot keep its head in sight and scroll sideways at once
// biome-ignore-all lint/a11y/useFocusableInteractive: the arrow keys of the grid give the focus to cells and cards
import { BookingCard } from './booking-card.tsx';
import type { PlanDepot } from './find-room.ts';
import { sayClosed } from './find-room.ts';
import type { GridDay } from './lay-out-grid.ts';
import styles from './plan-grid.module.css';
import { type Item, isDone } from './plan-items.ts';
import { sayPlace } from './say-place.ts';
import type { GridLinks } from './use-grid-links.ts';
import type { PlanHand } from './use-plan-hand.ts';

interface Props {
  depot: PlanDepot;
  bay: number;
  row: number;
  bays: number;
  days: readonly GridDay[];
  cells: ReadonlyMap<string, readonly Item[]>;
  hand: PlanHand;
  links: GridLinks;
  openKey: string | null;
  canChange: boolean;
}

const noItems: readonly Item[] = [];

/** One bay through the days, each day with what lies in it in the order of the day. */
export function BayRow({ depot, bay, row, bays, days, cells, hand, links, openKey, canChange }: Props) {
  return (
    <div className={styles.row} role="row" aria-rowindex={row + 2} data-kind="bay">
      <span className={styles.bay} role="rowheader">
        <span className="only-spoken">{depot.name}, </span>bay {bay}
      </span>
      {days.map(({ day, narrow, today }, i) => {
        const one = depot.days[i];
        const items = cells.get(`${bay} ${day}`) ?? noItems;
        const isOpen = one !== undefined && bay <= one.bays && one.hours !== null;
        const where = sayPlace({ depot: depot.id, day, bay }, depot.name);
        const isOver = day < depot.today;
        const state = isOver ? 'over' : isOpen ? 'open' : 'closed';
        return (
          <div
            key={day}
            role="gridcell"
            className={styles.cell}
            data-row={row}
            data-day={i}
            data-state={state}
            data-open={(state === 'open' && canChange) || undefined}
            data-narrow={narrow || undefined}
            data-today={today || undefined}
            tabIndex={-1}
            aria-label={items.length === 0 ? `${where}: ${sayState(state, one?.note ?? '')}` : undefined}
          >
            {items.length > 0 && <span className="only-spoken">{where}: </span>}
            {narrow && bay === 1 && (one?.note ?? '') !== '' && (
              <span
                className={styles.closedNote}
                style={{ maxHeight: `${bays * 2.25}rem` }}
                title={one?.note}
              >
                {one?.note}
              </span>
            )}
            {items.map((item) => (
              <BookingCard
                key={item.key}
                item={item}
                hours={one?.hours ?? null}
                href={links.toItem(item)}
                hand={hand}
                isOpen={openKey === item.key}
                canMove={canChange && !isDone(item)}
              />
            ))}
          </div>
        );
      })}
    </div>
  );
}

const sayState = (state: 'over' | 'open' | 'closed', note: string): string =>
  state === 'open' ? 'free' : state === 'over' ? 'over' : sayClosed(note);
