import { useState } from 'react';
import type { BayPlan, Booking } from '#server/contract/bookings.ts';
import type { BookingState } from '#server/contract/words.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatHours, formatWholeDay } from '#web/format/format-day.ts';
import { OpenPacketButton } from '#web/screens/packet/open-packet-button.tsx';
import { Button } from '#web/ui/button.tsx';
import styles from './beside.module.css';
import { BookingHistory } from './booking-history.tsx';
import { CloseForm, type Way } from './close-form.tsx';
import { MoveForm } from './move-form.tsx';
import { NoteForm } from './note-form.tsx';
import { sayMisfit, toBookingItem } from './plan-items.ts';
import type { BayPlanState } from './use-bay-plan-state.ts';
import { VehicleOutlook } from './vehicle-outlook.tsx';

interface Props {
  booking: Booking;
  state: BayPlanState;
  plan: BayPlan;
  canChange: boolean;
  say: (words: string) => void;
  onClose: () => void;
}

type Act = 'move' | Way;
const actWords: Record<Act, string> = { move: 'Move', 'put-off': 'Put off', cancel: 'Cancel', done: 'Done' };
const closedWords: Record<Way, string> = { 'put-off': 'put off', cancel: 'cancelled', done: 'done' };

const dayWords: Record<BookingState, string> = {
  booked: 'Booked for',
  put_off: 'Put off',
  done: 'Done',
  cancelled: 'Was booked for',
};

/** One booking: when and where, what the shop is told, what can be done with it, what has been done. */
export function BookingPanel({ booking, state, plan, canChange, say, onClose }: Props) {
  const [act, setAct] = useState<Act | null>(null);
  const depot = plan.depots.find(({ id }) => id === booking.depot)?.name ?? booking.depot;
  const misfit = sayMisfit(toBookingItem(booking));
  const isOpen = booking.state === 'booked' || booking.state === 'put_off';
  const hasBegun = booking.starts_at !== null && booking.starts_at <= plan.now;
  const acts: readonly Act[] =
    booking.state === 'put_off'
      ? ['move', 'cancel']
      : [...(hasBegun ? (['done'] as const) : []), 'move', 'put-off', 'cancel'];
  return (
    <>
      {booking.past && <p className={styles.warn}>It is over, and nobody has said what became of it.</p>}
      {misfit !== null && (
        <p className={styles.warn}>
          <strong>No longer fits.</strong> {misfit}
        </p>
      )}
      <dl className={styles.facts}>
        {booking.day === null && booking.state === 'cancelled' ? null : booking.day === null ? (
          <div>
            <dt>Put off</dt>
            <dd>waits for a day at {depot}</dd>
          </div>
        ) : (
          <>
            <div>
              <dt>{dayWords[booking.state]}</dt>
              <dd>
                {formatWholeDay(booking.day)}
                {booking.from !== null && (
                  <>
                    <br />
                    {booking.from} to {booking.to}
                    {booking.hours !== null && ` (${formatHours(booking.hours)})`}
                  </>
                )}
              </dd>
            </div>
            <div>
              <dt>Where</dt>
              <dd>
                {depot}, bay {booking.bay}
              </dd>
            </div>
          </>
        )}
        {booking.reason !== null && (
          <div>
            <dt>{booking.state === 'done' ? 'What came of it' : 'Reason'}</dt>
            <dd>{booking.reason}</dd>
          </div>
        )}
        <div>
          <dt>Last change</dt>
          <dd className={styles.soft}>
            {booking.changed_by}, {formatMoment(booking.changed_at)}
          </dd>
        </div>
      </dl>
      {canChange && isOpen && (
        <fieldset className={styles.acts}>
          <legend className="only-spoken">Change this booking</legend>
          {acts.map((one) => (
            <Button
              key={one}
              kind={one === 'cancel' ? 'grave' : 'plain'}
              aria-expanded={act === one}
              onClick={() => setAct(act === one ? null : one)}
            >
              {one === 'move' && booking.state === 'put_off' ? 'Find a day' : actWords[one]}
            </Button>
          ))}
        </fieldset>
      )}
      {act === 'move' && (
        <MoveForm
          booking={booking}
          plan={plan}
          onMoved={(moved) => {
            setAct(null);
            say(`${moved.vehicle} moved.`);
            if (moved.day !== null && (moved.day < plan.from || moved.day > plan.to))
              state.change({ from: moved.day });
          }}
        />
      )}
      {act !== null && act !== 'move' && (
        <CloseForm
          key={act}
          booking={booking}
          way={act}
          onClosed={() => {
            say(`${booking.vehicle}: ${closedWords[act]}.`);
            if (act === 'put-off') setAct(null);
            else onClose();
          }}
        />
      )}
      <NoteForm booking={booking} canChange={canChange && isOpen} />
      {canChange && isOpen && (
        <p>
          <OpenPacketButton vehicle={booking.vehicle} />
        </p>
      )}
      <VehicleOutlook vehicle={booking.vehicle} />
      <BookingHistory vehicle={booking.vehicle} />
    </>
  );
}
