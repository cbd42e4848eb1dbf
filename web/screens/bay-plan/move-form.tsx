import { type FormEvent, useState } from 'react';
import type { BayPlan, Booking } from '#server/contract/bookings.ts';
import { type Move, useMoveBooking } from '#web/api/use-bookings.ts';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './beside.module.css';
import { longestWords } from './note-form.tsx';
import { TimeFields, type Times } from './time-fields.tsx';
import { useInspectionHours } from './use-inspection-hours.ts';

interface Props {
  booking: Booking;
  plan: BayPlan;
  onMoved: (booking: Booking) => void;
}

const fields = ['depot', 'day', 'bay', 'from', 'hours', 'reason'] as const;

/** Another depot, day, bay or time, for those who do not drag. */
export function MoveForm({ booking, plan, onMoved }: Props) {
  const move = useMoveBooking();
  const hoursOf = useInspectionHours();
  const before: Times = {
    depot: booking.depot,
    day: booking.day ?? '',
    bay: booking.bay === null ? '' : String(booking.bay),
    from: booking.from ?? '',
    hours: booking.hours === null ? '' : String(booking.hours),
  };
  const [times, setTimes] = useState(before);
  const [reason, setReason] = useState('');
  const [lacksDay, setLacksDay] = useState(false);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setLacksDay(times.day === '');
    if (times.day === '') return;
    move.mutate(
      { booking, move: listChanges(before, times, reason), shown: booking },
      { onSuccess: onMoved },
    );
  };
  const errorOf = (field: keyof Times) =>
    field === 'day' && lacksDay ? 'Choose a day.' : findFieldError(move.error, field);
  const isSaid = fields.some((field) => findFieldError(move.error, field) !== undefined);
  return (
    <form className={styles.form} onSubmit={submit} aria-label={`Move ${booking.vehicle}`} noValidate>
      <TimeFields
        times={times}
        plan={plan}
        onChange={setTimes}
        errorOf={errorOf}
        usualHours={String(hoursOf(booking.platform))}
      />
      <TextField
        label="Reason"
        hint="Stands in the history; may stay empty."
        value={reason}
        maxLength={longestWords}
        onChange={setReason}
        error={findFieldError(move.error, 'reason')}
      />
      {move.isError && !isSaid && <ProblemNote error={move.error} />}
      <div className={styles.buttons}>
        <Button type="submit" kind="main" disabled={move.isPending}>
          {booking.day === null ? 'Book this day' : 'Move'}
        </Button>
      </div>
    </form>
  );
}

/** What differs from before; a bay and a time that are left open are looked for by the server. */
function listChanges(before: Times, times: Times, reason: string): Move {
  const isElsewhere = times.day !== before.day || times.depot !== before.depot;
  const words = reason.trim();
  return {
    ...(times.depot === before.depot ? {} : { depot: times.depot }),
    ...(times.day === before.day ? {} : { day: times.day }),
    ...(times.bay === '' || (times.bay === before.bay && !isElsewhere) ? {} : { bay: Number(times.bay) }),
    ...(times.from === '' || (times.from === before.from && !isElsewhere) ? {} : { from: times.from }),
    ...(times.hours === '' || times.hours === before.hours ? {} : { hours: Number(times.hours) }),
    ...(words === '' ? {} : { reason: words }),
  };
}
