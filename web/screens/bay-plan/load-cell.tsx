// biome-ignore-all lint/a11y/useSemanticElements: a table cannot keep its head in sight and scroll sideways at once
// biome-ignore-all lint/a11y/useFocusableInteractive: the arrow keys of the grid give the focus to cells and cards
import type { DepotDay } from '#server/contract/bookings.ts';
import { formatDay, formatHourNumber, formatHours } from '#web/format/format-day.ts';
import { type PlanDepot, sayClosed } from './find-room.ts';
import styles from './plan-grid.module.css';

interface Props {
  row: number;
  index: number;
  depot: PlanDepot;
  day: DepotDay | undefined;
  narrow: boolean;
  today: boolean;
  proposedHours: number;
  href: string;
}

/** How much of a depot's day is taken: a rail as long as the hours there are, thick as far as they are booked. */
export function LoadCell({ row, index, depot, day, narrow, today, proposedHours, href }: Props) {
  const all = day?.bay_hours ?? 0;
  const booked = day?.booked_hours ?? 0;
  const isClosed = all === 0 && booked === 0 && proposedHours === 0;
  const isFull = booked + proposedHours > 0 && booked + proposedHours >= all;
  const load = sayLoad(booked, proposedHours, all);
  return (
    <div
      role="gridcell"
      className={styles.load}
      data-row={row}
      data-day={index}
      data-narrow={narrow || undefined}
      data-today={today || undefined}
      data-state={isClosed ? 'closed' : (day?.day ?? '') < depot.today ? 'over' : 'open'}
      tabIndex={isClosed ? -1 : undefined}
      aria-label={
        isClosed
          ? `${depot.name}, ${formatDay(day?.day ?? '1970-01-01')}: ${sayClosed(day?.note ?? '')}`
          : undefined
      }
      title={isClosed && day?.note !== '' ? day?.note : undefined}
    >
      {isClosed ? (
        !narrow && <span className={styles.closedWord}>{day?.note || 'closed'}</span>
      ) : (
        <a href={href} data-stop="" tabIndex={-1} draggable={false} title={load}>
          <LoadRail all={all} booked={booked} proposed={proposedHours} />
          <span className={styles.figures} data-full={isFull || undefined}>
            <span className="only-spoken">{`${depot.name}, ${formatDay(day?.day ?? '1970-01-01')}: `}</span>
            {formatHourNumber(booked)}
            {proposedHours > 0 && <em>+{formatHourNumber(proposedHours)}</em>}
            <span className={styles.of}>/{formatHourNumber(all)}</span>
            <span className={styles.unit}> h</span>
            {isFull && <b>{booked + proposedHours > all ? 'over' : 'full'}</b>}
            <span className="only-spoken">{`, ${load}. Open the day`}</span>
          </span>
        </a>
      )}
    </div>
  );
}

/** Beyond the end of the rail is more than the bays have hours. */
export function LoadRail({ all, booked, proposed }: { all: number; booked: number; proposed: number }) {
  const share = (hours: number) => `${Math.min(100, all === 0 ? 100 : (hours / all) * 100)}%`;
  return (
    <span className={styles.rail} aria-hidden="true">
      <span className={styles.booked} style={{ width: share(booked) }} />
      {proposed > 0 && (
        <span
          className={styles.proposed}
          style={{ left: share(booked), width: `calc(${share(booked + proposed)} - ${share(booked)})` }}
        />
      )}
    </span>
  );
}

export function sayLoad(booked: number, proposed: number, all: number): string {
  const words = `${formatHourNumber(booked)} of ${formatHours(all)} booked`;
  const more = proposed === 0 ? '' : `, ${formatHours(proposed)} proposed`;
  const left = all - booked - proposed;
  return `${words}${more}${left < 0 ? `, ${formatHours(-left)} too many` : left === 0 ? ', full' : ''}`;
}
