import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { VehicleDetail } from '#server/contract/vehicle.ts';
import { usePlatforms } from '#web/api/use-fleet.ts';
import { useOwnDepots } from '#web/api/use-own-depots.ts';
import { useSaveVehicle } from '#web/api/use-save-vehicle.ts';
import { usePerson } from '#web/api/use-session.ts';
import { formatDay } from '#web/format/format-day.ts';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import formStyles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { AwayFields } from './away-fields.tsx';
import styles from './home.module.css';
import { type HomeDraft, readDraft, toDraft } from './home-draft.ts';
import { findAway } from './say-away.ts';

interface Props {
  detail: VehicleDetail;
  today: string;
  onDone: (saved: boolean) => void;
}

export function HomeForm({ detail, today, onDone }: Props) {
  const { vehicle, booking } = detail;
  const own = usePerson()?.depots ?? null;
  const depots = useOwnDepots();
  const platforms = usePlatforms().data ?? [];
  const save = useSaveVehicle(vehicle);
  const form = useRef<HTMLFormElement>(null);
  /** what the fields began with: others may change the rest meanwhile */
  const [opened] = useState(detail);
  const [draft, setDraft] = useState<HomeDraft>(() => toDraft(opened));
  const [isTried, setTried] = useState(false);
  useEffect(() => form.current?.querySelector('select')?.focus(), []);
  const { change, faults } = readDraft(draft, opened);
  const isChanged = change === null || Object.keys(change).length > 0;
  const booked = booking?.state === 'booked' ? booking.day : null;
  const clash = findAway(draft.away, booked);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (change !== null) save.mutate(change, { onSuccess: () => onDone(true) });
  };
  const errorOf = (field: string) => {
    const isMissing = !isTried && field.endsWith('.from');
    return (isMissing ? undefined : faults[field]) ?? findFieldError(save.error, field);
  };
  const none = (value: string, words: string) => (value === '' ? [{ value: '', label: words }] : []);
  return (
    <form
      ref={form}
      className={styles.form}
      noValidate
      onSubmit={submit}
      aria-label={`Home and days of ${vehicle}`}
    >
      {save.isError && <ProblemNote error={save.error} />}
      <div className={styles.pair}>
        <SelectField
          label="Home depot"
          value={draft.depot}
          options={[
            ...(own === null ? [{ value: '', label: 'none yet' }] : none(draft.depot, 'none yet')),
            ...depots.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          error={errorOf('depot')}
          onChange={(depot) => setDraft({ ...draft, depot })}
        />
        <SelectField
          label="Platform"
          value={draft.platform}
          options={[
            { value: '', label: 'none yet' },
            ...platforms.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          hint={
            draft.platform === (detail.platform ?? '')
              ? undefined
              : 'Its stretches are made anew from its readings, and it is assessed again.'
          }
          error={errorOf('platform')}
          onChange={(platform) => setDraft({ ...draft, platform })}
        />
      </div>
      <AwayFields
        days={draft.away}
        today={today}
        errorOf={errorOf}
        onChange={(away) => setDraft({ ...draft, away })}
      />
      {clash !== undefined && booked !== null && (
        <p className={styles.clash} role="status">
          It is booked on {formatDay(booked)}, which is among these days. The booking stays until somebody
          moves it.
        </p>
      )}
      <div className={formStyles.buttons}>
        <Button type="submit" kind="main" disabled={save.isPending || !isChanged}>
          Save home and days
        </Button>
        <Button kind="quiet" onClick={() => onDone(false)}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
