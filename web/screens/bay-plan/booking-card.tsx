import { memo, useRef } from 'react';
import type { Hours } from '#server/contract/calendar.ts';
import { formatHourNumber } from '#web/format/format-day.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import styles from './booking-card.module.css';
import { readMinutes } from './clocks.ts';
import { gradeOf, type Item, isDone, isPast, sayMisfit } from './plan-items.ts';
import { sayRest } from './say-item.ts';
import { useDraggable } from './use-draggable.ts';
import type { PlanHand } from './use-plan-hand.ts';

interface Props {
  item: Item;
  /** of the day that it lies in; null where it waits for a day, or nobody works */
  hours: Hours | null;
  href: string;
  hand: PlanHand;
  isOpen: boolean;
  canMove: boolean;
  /** outside the grid, where Tab goes from card to card */
  isStop?: boolean;
}

/** A unit in its bay. The line below it is the working day, thick while the bay is taken. */
export const BookingCard = memo(
  function BookingCard({ item, hours, href, hand, isOpen, canMove, isStop = false }: Props) {
    const ref = useRef<HTMLAnchorElement>(null);
    useDraggable(ref, item, hand, canMove);
    const { of, kind } = item;
    const mark = sayMisfit(item) !== null ? '!' : isPast(item) ? '?' : null;
    return (
      <a
        ref={ref}
        href={href}
        className={styles.card}
        data-stop=""
        data-card={item.key}
        draggable={canMove ? undefined : false}
        data-fixed={canMove ? undefined : ''}
        data-kind={kind}
        data-grade={gradeOf(item)}
        data-past={isPast(item) || undefined}
        data-done={isDone(item) || undefined}
        data-wrong={mark === '!' || undefined}
        data-ticked={kind === 'draft' ? of.ticked : undefined}
        aria-current={isOpen || undefined}
        tabIndex={isStop ? undefined : -1}
      >
        <span className={styles.line}>
          {kind === 'draft' && <span className={styles.tick} aria-hidden="true" />}
          <span className={styles.mark}>
            <GradeMark grade={gradeOf(item)} withWord={false} />
          </span>
          {mark !== null && (
            <b className={styles.sign} aria-hidden="true">
              {mark}
            </b>
          )}
          <span className={styles.unit}>{of.vehicle}</span>
          <span className={styles.hours}>
            {of.from !== null && <span className={styles.time}>{of.from} </span>}
            {of.hours !== null && (
              <>
                {formatHourNumber(of.hours)}
                <span className={styles.hourUnit}> h</span>
              </>
            )}
          </span>
        </span>
        <span className="only-spoken">{sayRest(item)}</span>
        {of.from !== null && of.to !== null && hours !== null && (
          <span className={styles.day} style={placeInDay(of.from, of.to, hours)} aria-hidden="true" />
        )}
      </a>
    );
  },
  (a, b) =>
    a.item.of === b.item.of &&
    a.hours === b.hours &&
    a.href === b.href &&
    a.hand === b.hand &&
    a.isOpen === b.isOpen &&
    a.canMove === b.canMove,
);

function placeInDay(from: string, to: string, hours: Hours) {
  const opens = readMinutes(hours.from);
  const share = (clock: string) =>
    `${Math.max(0, Math.min(1, (readMinutes(clock) - opens) / (readMinutes(hours.to) - opens))) * 100}%`;
  return { '--from': share(from), '--to': share(to) } as React.CSSProperties;
}
