import { type FormEvent, useState } from 'react';
import type { BayPlan } from '#server/contract/bookings.ts';
import type { Draft } from '#web/api/use-plan.ts';
import { readNumber } from '#web/format/read-number.ts';
import { Button } from '#web/ui/button.tsx';
import styles from './beside.module.css';
import { findRoomOnDay } from './find-room.ts';
import { listTaken, toDraftItem } from './plan-items.ts';
import { TimeFields, type Times } from './time-fields.tsx';

type Moved = Pick<Draft, 'depot' | 'day' | 'bay' | 'from' | 'to' | 'hours'>;

interface Props {
  draft: Draft;
  drafts: readonly Draft[];
  plan: BayPlan;
  onMoved: (moved: Moved) => void;
}

/** As the server takes it. */
const lengthRule = { least: 0.25, most: 24, step: 0.25, unit: 'h' };

/** Another place for a proposal; nothing is asked of the server before it is accepted. */
export function DraftMoveForm({ draft, drafts, plan, onMoved }: Props) {
  const [times, setTimes] = useState<Times>({
    depot: draft.depot,
    day: draft.day,
    bay: String(draft.bay),
    from: draft.from,
    hours: String(draft.hours),
  });
  const [wrong, setWrong] = useState<{ field: keyof Times; why: string } | null>(null);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const depot = plan.depots.find(({ id }) => id === times.depot);
    if (depot === undefined) return setWrong({ field: 'depot', why: 'Choose a depot that is shown.' });
    const length = readNumber(times.hours.trim() || String(draft.hours), lengthRule);
    if (length.value === null) return setWrong({ field: 'hours', why: length.fault });
    const hours = length.value;
    const wish = { hours, from: times.from || null, key: toDraftItem(draft).key };
    const taken = listTaken(plan.bookings, drafts);
    const bay = times.bay === '' ? null : Number(times.bay);
    const room = findRoomOnDay(depot, { day: times.day, bay }, wish, taken, plan.now);
    if (!room.fits) return setWrong({ field: 'day', why: `It has no place there: ${room.why}.` });
    if (times.from !== '' && room.from !== times.from)
      return setWrong({
        field: 'from',
        why: `At ${times.from} it has no place there; from ${room.from} it has.`,
      });
    setWrong(null);
    onMoved({ depot: depot.id, day: times.day, bay: room.bay, from: room.from, to: room.to, hours });
  };
  return (
    <form
      className={styles.form}
      aria-label={`Move the proposal for ${draft.vehicle}`}
      onSubmit={submit}
      noValidate
    >
      <TimeFields
        times={times}
        plan={plan}
        onChange={setTimes}
        errorOf={(field) => (field === wrong?.field ? wrong.why : undefined)}
        usualHours={String(draft.hours)}
      />
      <div className={styles.buttons}>
        <Button type="submit">Move the proposal</Button>
      </div>
    </form>
  );
}
