import { type FormEvent, useState } from 'react';
import type { Booking } from '#server/contract/bookings.ts';
import { type Closing, useCloseBooking } from '#web/api/use-bookings.ts';
import { Button } from '#web/ui/button.tsx';
import { ChoiceLine } from '#web/ui/choice-lines.tsx';
import { FieldFrame } from '#web/ui/field-frame.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './beside.module.css';
import { useKeptFocus } from './margin.tsx';
import { longestWords } from './note-form.tsx';

export type Way = Closing['how'];

const wayWords: Record<Way, { label: string; hint: string; yes: string }> = {
  'put-off': {
    label: 'Why it is put off',
    hint: 'It keeps its note and waits for another day.',
    yes: 'Put off',
  },
  cancel: { label: 'Why it is cancelled', hint: 'Its bay is free again.', yes: 'Cancel this booking' },
  done: { label: 'What came of it', hint: 'May stay empty.', yes: 'Done' },
};
const leastWords = 3;

/** Puts a booking off, cancels it or closes it, with the reason that goes into the history. */
export function CloseForm({ booking, way, onClosed }: { booking: Booking; way: Way; onClosed: () => void }) {
  const close = useCloseBooking();
  useKeptFocus();
  const [reason, setReason] = useState('');
  const [leavesHold, setLeavesHold] = useState(false);
  const [lacks, setLacks] = useState<'reason' | 'hold' | null>(null);
  const { label, hint, yes } = wayWords[way];
  const needsReason = way !== 'done';
  const leaves = needsReason && booking.grade === 'hold';
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const words = reason.trim();
    if (needsReason && words.length < leastWords) return setLacks('reason');
    if (leaves && !leavesHold) return setLacks('hold');
    setLacks(null);
    close
      .mutateAsync({
        booking,
        how: way,
        ...(words === '' ? {} : { reason: words }),
        ...(leaves ? { leaves_hold: true } : {}),
      })
      .then(onClosed, () => undefined);
  };
  const wrong = lacks === 'reason' ? 'Say why, in a few words.' : findFieldError(close.error, 'reason');
  return (
    <form className={styles.form} onSubmit={submit} aria-label={`${yes} ${booking.vehicle}`} noValidate>
      <FieldFrame label={label} hint={hint} error={wrong}>
        {(control) => (
          <textarea
            {...control}
            rows={2}
            maxLength={longestWords}
            required={needsReason}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        )}
      </FieldFrame>
      {leaves && (
        <div className={styles.leaves}>
          <ChoiceLine
            type="checkbox"
            label={`Leave ${booking.vehicle} on hold without a day`}
            words="It must not be dispatched before inspection, and stays on top of the bay plan until it has a day."
            checked={leavesHold}
            onChange={() => setLeavesHold(!leavesHold)}
          />
          {lacks === 'hold' && (
            <p className={styles.lacks} role="alert">
              Tick this to go on: a vehicle on hold is not left without a day unsaid.
            </p>
          )}
        </div>
      )}
      {close.isError && wrong === undefined && <ProblemNote error={close.error} />}
      <div className={styles.buttons}>
        <Button type="submit" kind={way === 'cancel' ? 'grave' : 'main'} disabled={close.isPending}>
          {yes}
        </Button>
      </div>
    </form>
  );
}
