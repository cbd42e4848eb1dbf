import type { BayPlan } from '#server/contract/bookings.ts';
import { formatDay } from '#web/format/format-day.ts';
import { BookingCard } from './booking-card.tsx';
import { type Item, toBookingItem } from './plan-items.ts';
import type { GridLinks } from './use-grid-links.ts';
import type { PlanHand } from './use-plan-hand.ts';
import styles from './waiting-strip.module.css';

interface Props {
  plan: BayPlan;
  hand: PlanHand;
  links: GridLinks;
  openKey: string | null;
  canChange: boolean;
  onOpen: (item: Item) => void;
  onTakeUp: (item: Item) => void;
}

/** What needs a word from the planner: bookings that wait for a day, and those that are over without an end. */
export function WaitingStrip({ plan, ...rest }: Props) {
  if (plan.put_off.length === 0 && plan.past.length === 0) return null;
  return (
    <div className={styles.strip}>
      {plan.put_off.length > 0 && (
        <Tray
          title={`${plan.put_off.length} put off, waiting for a day`}
          items={plan.put_off.map(toBookingItem)}
          tell={({ of }) => ('reason' in of ? of.reason : null)}
          {...rest}
        />
      )}
      {plan.past.length > 0 && (
        <Tray
          title={
            plan.past.length === 1
              ? '1 is over and not closed'
              : `${plan.past.length} are over and not closed`
          }
          items={plan.past.map(toBookingItem)}
          tell={({ of }) => `${formatDay(of.day ?? '1970-01-01')}, bay ${of.bay}`}
          {...rest}
        />
      )}
    </div>
  );
}

interface TrayProps extends Omit<Props, 'plan'> {
  title: string;
  items: readonly Item[];
  tell: (item: Item) => string | null;
}

function Tray({ title, items, tell, hand, links, openKey, canChange, onOpen, onTakeUp }: TrayProps) {
  return (
    <section className={styles.tray} aria-label={title}>
      <h2>{title}</h2>
      <ul>
        {items.map((item) => (
          <li
            key={item.key}
            onClick={(event) => {
              if (event.metaKey || event.ctrlKey || event.shiftKey) return;
              event.preventDefault();
              onOpen(item);
            }}
            onKeyDown={(event) => {
              if (event.key === 'm' && canChange) {
                event.preventDefault();
                onTakeUp(item);
              }
            }}
          >
            <BookingCard
              item={item}
              hours={null}
              href={links.toItem(item)}
              hand={hand}
              isOpen={openKey === item.key}
              canMove={canChange}
              isStop
            />
            <span className={styles.why}>{tell(item)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
