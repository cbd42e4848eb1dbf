import { Link } from '@tanstack/react-router';
import { type FormEvent, useId, useState } from 'react';
import type { BayPlan, BookingRequest } from '#server/contract/bookings.ts';
import { useBook } from '#web/api/use-bookings.ts';
import type { Draft } from '#web/api/use-plan.ts';
import { useUnbooked } from '#web/api/use-unbooked.ts';
import { Button } from '#web/ui/button.tsx';
import { FieldFrame } from '#web/ui/field-frame.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './beside.module.css';
import { findFirstRoom } from './find-room.ts';
import { longestWords } from './note-form.tsx';
import { listTaken } from './plan-items.ts';
import type { Place } from './plan-search.ts';
import { sayPlace } from './say-place.ts';
import { TimeFields, type Times } from './time-fields.tsx';
import type { BayPlanState } from './use-bay-plan-state.ts';
import { useInspectionHours } from './use-inspection-hours.ts';
import { useTypedVehicle } from './use-typed-vehicle.ts';
import { VehicleOutlook } from './vehicle-outlook.tsx';

interface Props {
  unit: string;
  place: Place | null;
  state: BayPlanState;
  plan: BayPlan;
  drafts: readonly Draft[];
  say: (words: string) => void;
}

const noTimes: Times = { depot: '', day: '', bay: '', from: '', hours: '' };

/** Books one vehicle by hand. Where only the vehicle is known, the first day with room is offered. */
export function NewBooking({ unit, place, state, plan, drafts, say }: Props) {
  const list = useId();
  const book = useBook();
  const hoursOf = useInspectionHours();
  const unbooked = useUnbooked().data?.rows ?? [];
  const [vehicle, setVehicle] = useState(unit);
  const [chosen, setChosen] = useState<Times | null>(
    place === null ? null : { ...noTimes, depot: place.depot, day: place.day, bay: String(place.bay) },
  );
  const [note, setNote] = useState('');
  const [reason, setReason] = useState('');
  const [refused, setRefused] = useState<{ field: string; message: string } | null>(null);

  const { unit: named, detail, isUnknown, isAwaited } = useTypedVehicle(vehicle.trim());
  const known = unbooked.find((row) => row.vehicle === named);
  const platform = detail?.platform ?? known?.platform ?? null;
  const depotId = detail?.depot ?? known?.depot ?? state.search.depot ?? '';
  const offered = offerFirst(plan, drafts, depotId, hoursOf(platform));
  const times = chosen ?? {
    ...noTimes,
    depot: depotId,
    day: offered?.day ?? '',
  };
  const open = detail?.booking ?? null;
  const errorOf = (field: string) =>
    refused?.field === field ? refused.message : findFieldError(book.error, field);
  const waits = times.day === '' && (detail !== undefined || errorOf('reason') !== undefined);
  const cannot =
    detail?.retired === true ? (
      <p className={styles.warn}>{detail.vehicle} is retired, so it cannot be booked.</p>
    ) : open !== null ? (
      <p className={styles.warn}>
        It has a booking already.{' '}
        <Link to="/bay-plan" search={{ open: open.id, ...(open.day === null ? {} : { from: open.day }) }}>
          Open that one
        </Link>
      </p>
    ) : null;

  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (cannot !== null) return;
    setRefused(null);
    if (named === '') return setRefused({ field: 'vehicle', message: 'Name the unit to book.' });
    book.mutate([toRequest(named, times, note, reason)], {
      onSuccess: ({ booked, refused: lines }) => {
        const one = booked[0];
        setRefused(lines[0] ?? null);
        if (one === undefined) return;
        say(one.day === null ? `${one.vehicle} waits for a day.` : `${one.vehicle} booked.`);
        const isShown = one.day === null || (one.day >= plan.from && one.day <= plan.to);
        state.change({ open: one.id, ...(isShown ? {} : { from: one.day ?? undefined }) });
      },
    });
  };
  const shownFields = ['vehicle', 'depot', 'day', 'bay', 'from', 'hours', 'note', 'reason'];
  return (
    <>
      {unit !== '' && <p className={styles.big}>{unit}</p>}
      {unit !== '' && cannot}
      {(unit === '' || cannot === null) && (
        <form className={styles.form} onSubmit={submit} aria-label="Book a vehicle" noValidate>
          {unit === '' && (
            <>
              <TextField
                label="Unit"
                list={list}
                autoComplete="off"
                value={vehicle}
                onChange={(text) => {
                  setVehicle(text);
                  setRefused(null);
                }}
                error={
                  errorOf('vehicle') ?? (isUnknown ? `No vehicle '${vehicle.trim()}' is known.` : undefined)
                }
              />
              <datalist id={list}>
                {unbooked.map((row) => (
                  <option key={row.vehicle} value={row.vehicle}>
                    {row.grade}
                  </option>
                ))}
              </datalist>
            </>
          )}
          {cannot ?? (
            <>
              <TimeFields
                times={times}
                plan={plan}
                onChange={setChosen}
                errorOf={errorOf}
                usualHours={String(hoursOf(platform))}
                hint={
                  chosen === null && offered !== null
                    ? `First room: ${sayPlace(offered, plan.depots.find(({ id }) => id === offered.depot)?.name ?? '')}, from ${offered.from}.`
                    : chosen === null && depotId !== ''
                      ? 'No room within the days shown: choose a later day.'
                      : undefined
                }
              />
              {waits && (
                <TextField
                  label="Why it waits for a day"
                  hint="Needed where no day is given."
                  value={reason}
                  maxLength={longestWords}
                  onChange={setReason}
                  error={errorOf('reason')}
                />
              )}
              <FieldFrame label="Note for the shop" error={errorOf('note')}>
                {(control) => (
                  <textarea
                    {...control}
                    rows={2}
                    maxLength={longestWords}
                    value={note}
                    onChange={(event) => setNote(event.target.value)}
                  />
                )}
              </FieldFrame>
              {refused !== null && !shownFields.includes(refused.field) && (
                <p className={styles.lacks}>{refused.message}</p>
              )}
              {unit !== '' && errorOf('vehicle') !== undefined && (
                <p className={styles.lacks}>{errorOf('vehicle')}</p>
              )}
              {book.isError && <ProblemNote error={book.error} />}
              <div className={styles.buttons}>
                <Button type="submit" kind="main" disabled={book.isPending || isAwaited}>
                  {waits ? 'Let it wait' : 'Book'}
                </Button>
              </div>
            </>
          )}
        </form>
      )}
      {unit !== '' && <VehicleOutlook vehicle={unit} />}
    </>
  );
}

function offerFirst(plan: BayPlan, drafts: readonly Draft[], depotId: string, hours: number) {
  const depot = plan.depots.find(({ id }) => id === depotId);
  return depot === undefined
    ? null
    : findFirstRoom(depot, { hours }, listTaken(plan.bookings, drafts), plan.now);
}

function toRequest(vehicle: string, times: Times, note: string, reason: string): BookingRequest {
  const words = note.trim();
  const why = reason.trim();
  return {
    vehicle,
    ...(times.depot === '' ? {} : { depot: times.depot }),
    ...(times.day === '' ? {} : { day: times.day }),
    ...(times.day === '' || times.bay === '' ? {} : { bay: Number(times.bay) }),
    ...(times.day === '' || times.from === '' ? {} : { from: times.from }),
    ...(times.hours === '' ? {} : { hours: Number(times.hours) }),
    ...(words === '' ? {} : { note: words }),
    ...(times.day !== '' || why === '' ? {} : { reason: why }),
  };
}
