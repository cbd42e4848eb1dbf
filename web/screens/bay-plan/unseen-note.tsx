import type { BayPlan, Booking } from '#server/contract/bookings.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { Button } from '#web/ui/button.tsx';
import styles from './beside.module.css';
import type { BayPlanState } from './use-bay-plan-state.ts';

/** Why the grid does not show a booking that is open beside it, and the way to where it lies. */
export function UnseenNote({
  booking: { state: is, day, depot, changed_by, changed_at },
  state: { search, change },
  plan,
}: {
  booking: Booking;
  state: BayPlanState;
  plan: BayPlan;
}) {
  if (is === 'cancelled')
    return (
      <p className={styles.warn} role="status">
        {changed_by} cancelled this booking, {formatMoment(changed_at)}.
      </p>
    );
  const isOnOtherDays = day !== null && (day < plan.from || day > plan.to);
  return (
    <p className={styles.soft}>
      The plan shows other {isOnOtherDays ? 'days' : 'depots'} now.{' '}
      <Button
        kind="quiet"
        onClick={() =>
          change({
            ...(isOnOtherDays ? { from: day } : {}),
            ...(search.depot === undefined ? {} : { depot }),
          })
        }
      >
        {isOnOtherDays ? 'Show its days' : 'Show its depot'}
      </Button>
    </p>
  );
}
