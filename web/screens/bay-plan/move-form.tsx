import { type FormEvent, useState } from 'react';
import type { BayPlan, Booking } from '#server/contract/bookings.ts';
import { type Move, useMoveBooking } from '#web/api/use-bookings.ts';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './beside.module.css';
import { useKeptFocus } from './margin.tsx';
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
  useKeptFocus();
  const [opened, setOpened] = useState(booking);
  const [changed, setChanged] = useState<Partial<Times>>({});
  const before = toTimes(opened);
  const times = { ...before, ...changed };
  // Where somebody moved it meanwhile, this one is refused and told who; then the fields show the newer place.
  if (opened !== booking && (move.isError || isSameTimes(before, toTimes(booking)))) setOpened(booking);
  const [reason, setReason] = useState('');
  const [lacksDay, setLacksDay] = useState(false);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setLacksDay(times.day === '');
    if (times.day === '') return;
    const wanted = { version: opened.version, ...listChanges(before, times, reason) };
    move.mutateAsync({ booking, move: wanted, shown: booking }).then(onMoved, () => undefined);
  };
  const errorOf = (field: keyof Times) =>
    field === 'day' && lacksDay ? 'Choose a day.' : findFieldError(move.error, field);
  const isSaid = fields.some((field) => findFieldError(move.error, field) !== undefined);
  return (
    <form className={styles.form} onSubmit={submit} aria-label={`Move ${booking.vehicle}`} noValidate>
      <TimeFields
        times={times}
        plan={plan}
        onChange={(next) => setChanged(listDiffering(before, next))}
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

const toTimes = ({ depot, day, bay, from, hours }: Booking): Times => ({
  depot,
  day: day ?? '',
  bay: bay === null ? '' : String(bay),
  from: from ?? '',
  hours: hours === null ? '' : String(hours),
});

const listDiffering = (before: Times, times: Times): Partial<Times> =>
  Object.fromEntries(Object.entries(times).filter(([field, text]) => text !== before[field as keyof Times]));

const isSameTimes = (a: Times, b: Times): boolean => Object.keys(listDiffering(a, b)).length === 0;

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
