import { type FormEvent, useState } from 'react';
import type { Booking } from '#server/contract/bookings.ts';
import { useMoveBooking } from '#web/api/use-bookings.ts';
import { Button } from '#web/ui/button.tsx';
import { FieldFrame } from '#web/ui/field-frame.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './beside.module.css';

export const longestWords = 500;

/** What the shop is told with the booking. */
export function NoteForm({ booking, canChange }: { booking: Booking; canChange: boolean }) {
  const move = useMoveBooking();
  /** null where it is as it is stored */
  const [typed, setTyped] = useState<string | null>(null);
  const note = typed ?? booking.note ?? '';
  const words = note.trim();
  const isChanged = words !== (booking.note ?? '');
  if (!canChange && !isChanged)
    return booking.note === null ? null : (
      <section className={styles.note}>
        <h3>Note for the shop</h3>
        <p>{booking.note}</p>
      </section>
    );
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    // The button goes once the note is saved.
    event.currentTarget.querySelector('textarea')?.focus();
    move.mutate(
      { booking, move: { note: words === '' ? null : words }, shown: booking },
      { onSuccess: () => setTyped((now) => (now === typed ? null : now)) },
    );
  };
  return (
    <form className={styles.form} onSubmit={submit} aria-label="Note for the shop">
      <FieldFrame label="Note for the shop">
        {(control) => (
          <textarea
            {...control}
            readOnly={!canChange}
            rows={Math.min(5, Math.max(1, Math.ceil(note.length / 40)))}
            maxLength={longestWords}
            placeholder="What to look at first, where the vehicle stands"
            value={note}
            onChange={(event) => setTyped(event.target.value)}
          />
        )}
      </FieldFrame>
      {move.isError && <ProblemNote error={move.error} />}
      {!canChange && <p className={styles.lacks}>This note was not saved: the booking is closed.</p>}
      {canChange && isChanged && (
        <div className={styles.buttons}>
          <Button type="submit" disabled={move.isPending}>
            Save the note
          </Button>
        </div>
      )}
    </form>
  );
}
