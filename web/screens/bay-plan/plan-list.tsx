import { formatDay, formatHours } from '#web/format/format-day.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { sayClosed } from './find-room.ts';
import type { Grid, GridDay, GridDepot } from './lay-out-grid.ts';
import { LoadRail, sayLoad } from './load-cell.tsx';
import { gradeOf, type Item, isDone, isPast, sayMisfit, toBookingItem, toDraftItem } from './plan-items.ts';
import styles from './plan-list.module.css';
import type { GridLinks } from './use-grid-links.ts';

interface Props {
  grid: Grid;
  links: GridLinks;
  onOpen: (item: Item) => void;
}

/** The plan for a small screen: day by day, depot by depot. What is to be moved is opened and moved by its form. */
export function PlanList({ grid, links, onOpen }: Props) {
  return (
    <div className={styles.list}>
      {grid.days.map((day, i) => (
        <section
          key={day.day}
          className={styles.day}
          aria-labelledby={`day-${day.day}`}
          data-narrow={day.narrow || undefined}
        >
          <h2 id={`day-${day.day}`}>
            {formatDay(day.day)}
            {day.today && <span className={styles.today}>today</span>}
            {day.narrow && <span className={styles.closed}>{sayNarrow(grid, i)}</span>}
          </h2>
          {!day.narrow &&
            grid.depots.map((one) => (
              <DepotDay key={one.depot.id} one={one} day={day} index={i} links={links} onOpen={onOpen} />
            ))}
        </section>
      ))}
    </div>
  );
}

function DepotDay({
  one,
  day,
  index,
  links,
  onOpen,
}: { one: GridDepot; day: GridDay; index: number } & Omit<Props, 'grid'>) {
  const about = one.depot.days[index];
  const isHere = (other: { day: string | null }) => other.day === day.day;
  const drafts = one.drafts.filter(isHere);
  const items = [...one.bookings.filter(isHere).map(toBookingItem), ...drafts.map(toDraftItem)].sort((a, b) =>
    `${a.of.from}`.localeCompare(`${b.of.from}`),
  );
  const all = about?.bay_hours ?? 0;
  const booked = about?.booked_hours ?? 0;
  const proposed = drafts.reduce((sum, draft) => sum + draft.hours, 0);
  return (
    <div className={styles.depot}>
      <a className={styles.name} href={links.toDay(one.depot.id, day.day)}>
        <span>{one.depot.name}</span>
        <span className={styles.load}>
          {all === 0 && items.length === 0 ? sayClosed(about?.note ?? '') : sayLoad(booked, proposed, all)}
        </span>
      </a>
      {all > 0 && <LoadRail all={all} booked={booked} proposed={proposed} />}
      {items.length > 0 && (
        <ul>
          {items.map((item) => (
            <li key={item.key}>
              <ListedItem item={item} href={links.toItem(item)} onOpen={onOpen} />
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

function ListedItem({ item, href, onOpen }: { item: Item; href: string; onOpen: (item: Item) => void }) {
  const { of } = item;
  const word =
    sayMisfit(item) ??
    (isPast(item) ? 'over, not closed' : isDone(item) ? 'done' : item.kind === 'draft' ? 'proposed' : null);
  return (
    <a
      href={href}
      className={styles.item}
      data-card={item.key}
      data-kind={item.kind}
      data-wrong={sayMisfit(item) !== null || isPast(item) || undefined}
      onClick={(event) => {
        if (event.metaKey || event.ctrlKey || event.shiftKey) return;
        event.preventDefault();
        onOpen(item);
      }}
    >
      <GradeMark grade={gradeOf(item)} withWord={false} />
      <span className={styles.unit}>{of.vehicle}</span>
      <span className={styles.when}>
        {of.from}, bay {of.bay}, {of.hours !== null && formatHours(of.hours)}
      </span>
      {word !== null && <span className={styles.word}>{word}</span>}
    </a>
  );
}

function sayNarrow(grid: Grid, index: number): string {
  const note =
    grid.depots.map(({ depot }) => depot.days[index]?.note ?? '').find((text) => text !== '') ?? '';
  return sayClosed(note);
}
