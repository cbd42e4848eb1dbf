import { useQueryClient } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { Depot, DepotInput } from '#server/contract/fleet.ts';
import type { DepotPreview } from '#server/contract/settings.ts';
import { useDepots } from '#web/api/use-fleet.ts';
import { depotPreviewOptions, useSaveDepot } from '#web/api/use-save-depot.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { useRested } from '#web/ui/use-rested.ts';
import { AskMisfits } from './ask-misfits.tsx';
import { DepotCalendar } from './depot-calendar.tsx';
import { type DepotDraft, isSame, listChanges, newDepot, readDraft, tidy, toDraft } from './depot-draft.ts';
import { MisfitsNote } from './misfits-note.tsx';
import { sayBayHours } from './say-week.ts';
import { SpecialDaysFields } from './special-days-fields.tsx';
import { WeekFields } from './week-fields.tsx';
import { ZoneField } from './zone-field.tsx';

interface Props {
  /** as it is stored; null for a new one */
  before: Depot | null;
  onSaved?: (id: string) => void;
  onLeave?: () => void;
}

const ownZone = (): string => new Intl.DateTimeFormat().resolvedOptions().timeZone;

export function DepotForm({ before, onSaved, onLeave }: Props) {
  const client = useQueryClient();
  const save = useSaveDepot();
  const form = useRef<HTMLFormElement>(null);
  const isNew = before === null;
  const start = () => (before === null ? newDepot(ownZone()) : toDraft(before));
  const [draft, setDraft] = useState<DepotDraft>(start);
  /** what the fields began with */
  const [base, setBase] = useState(before);
  const [isTried, setTried] = useState(false);
  const [asked, setAsked] = useState<DepotPreview | null>(null);
  useEffect(() => {
    if (isNew) form.current?.querySelector('input')?.focus();
  }, [isNew]);
  const others = useDepots().data ?? [];
  const taken = isNew ? others.map(({ id }) => id) : [];
  const { depot, faults } = readDraft(draft, taken);
  const rested = readDraft(JSON.parse(useRested(JSON.stringify(draft))) as DepotDraft);
  // The calendar shows the last that could be.
  const [shown, setShown] = useState<Depot | null>(before);
  if (rested.depot !== null && !isSame(rested.depot, shown)) setShown(rested.depot);
  const stored = base === null ? null : tidy(base);
  const isChanged = isNew || !isSame(depot, stored);
  const putBack = () => {
    setBase(before);
    setDraft(start());
  };
  if (!isChanged && !isSame(base, before)) putBack();

  const change = (patch: Partial<DepotDraft>) => setDraft({ ...draft, ...patch });
  const changeTo = (wanted: Depot): DepotInput => (stored === null ? wanted : listChanges(stored, wanted));
  const store = (wanted: Depot) =>
    save.mutate(changeTo(wanted), {
      onSuccess: () => {
        setTried(false);
        setBase(wanted);
        // What was typed while it was saved stays.
        setDraft((now) => (now === draft ? toDraft(wanted) : now));
        onSaved?.(wanted.id);
      },
    });
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (depot === null) return;
    // Where it cannot be told, the server is asked to store it: whatever keeps it from that says why.
    const told = isNew
      ? null
      : await client.fetchQuery(depotPreviewOptions(changeTo(depot))).catch(() => null);
    if (told !== null && told.misfits.length > 0) setAsked(told);
    else store(depot);
  };
  const errorOf = (field: string): string | undefined => {
    const isMissing = isNew && !isTried && (field === 'id' || field === 'name');
    return (isMissing ? undefined : faults[field]) ?? findFieldError(save.error, field);
  };
  const isTold = save.isError && Object.keys(faults).length === 0 && !hasFieldErrors(save.error);
  return (
    <form
      ref={form}
      className={settingsStyles.sheet}
      noValidate
      onSubmit={(event) => void submit(event)}
      aria-label={isNew ? 'New depot' : `Depot ${before.name}`}
    >
      {isNew && <h2>New depot</h2>}
      {isTold && <ProblemNote error={save.error} />}
      <div className={settingsStyles.columns}>
        <div className={settingsStyles.stack}>
          <TextField
            label="Name"
            error={errorOf('name')}
            autoComplete="off"
            maxLength={120}
            value={draft.name}
            onChange={(name) => change({ name })}
          />
          {isNew && (
            <TextField
              label="Id"
              hint="Short, as deliveries and other programs name it. It cannot be changed later."
              error={errorOf('id')}
              autoComplete="off"
              autoCapitalize="none"
              spellCheck={false}
              maxLength={64}
              value={draft.id}
              onChange={(id) => change({ id })}
            />
          )}
          <TextField
            label="Bays"
            error={errorOf('bays')}
            inputMode="numeric"
            autoComplete="off"
            maxLength={3}
            value={draft.bays}
            onChange={(bays) => change({ bays })}
          />
          <ZoneField
            value={draft.timeZone}
            error={errorOf('time_zone')}
            keepsTimes={before !== null && draft.timeZone.trim() !== before.time_zone}
            onChange={(timeZone) => change({ timeZone })}
          />
          <WeekFields week={draft.week} errorOf={errorOf} onChange={(week) => change({ week })} />
        </div>
        <div className={settingsStyles.stack}>
          {shown !== null && rested.faults.week === undefined && (
            <>
              <p>{sayBayHours(shown)}</p>
              <DepotCalendar depot={shown} />
            </>
          )}
          {before !== null && (
            <MisfitsNote
              change={rested.depot === null || isSame(rested.depot, stored) ? null : changeTo(rested.depot)}
            />
          )}
        </div>
      </div>
      <SpecialDaysFields
        days={draft.specialDays}
        timeZone={draft.timeZone}
        errorOf={errorOf}
        onChange={(specialDays) => change({ specialDays })}
      />
      <div className={styles.buttons}>
        <Button type="submit" kind="main" disabled={save.isPending || !isChanged}>
          {isNew ? 'Make the depot' : 'Save the depot'}
        </Button>
        {onLeave !== undefined && (
          <Button kind="quiet" onClick={onLeave}>
            Leave it
          </Button>
        )}
        {!isNew && isChanged && (
          <Button kind="quiet" onClick={putBack}>
            Put back what is stored
          </Button>
        )}
        <span className={settingsStyles.small} role="status">
          {save.isSuccess && !isChanged ? 'Saved.' : ''}
          {isTried && depot === null ? 'Not saved: a field above needs another look.' : ''}
        </span>
        {before !== null && (
          <Link to="/settings/changes" search={{ subject: 'depot', subject_id: before.id }}>
            What was changed about {before.name}
          </Link>
        )}
      </div>
      {asked !== null && depot !== null && (
        <AskMisfits
          preview={asked}
          onNo={() => setAsked(null)}
          onYes={() => {
            setAsked(null);
            store(depot);
          }}
        />
      )}
    </form>
  );
}

const hasFieldErrors = (error: unknown): boolean =>
  typeof error === 'object' &&
  error !== null &&
  'errors' in error &&
  Array.isArray(error.errors) &&
  error.errors.length > 0;
