import { Link } from '@tanstack/react-router';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { Platform } from '#server/contract/fleet.ts';
import { usePlatforms } from '#web/api/use-fleet.ts';
import { useLifeFits } from '#web/api/use-life-fits.ts';
import { useSavePlatform } from '#web/api/use-save-platform.ts';
import { EffectPanel } from '#web/screens/settings/effect/effect-panel.tsx';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useRested } from '#web/ui/use-rested.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { applyChange, type PlatformDraft, readDraft, toDraft, toPreview, warnOf } from './platform-draft.ts';
import { PlatformFields, serverNames } from './platform-fields.tsx';
import { sayPlatformLife } from './say-platform-life.ts';
import { readSolenoid } from './shop-groups.ts';

interface Props {
  /** without an id it is new */
  stored: Platform;
  onSaved?: (id: string) => void;
  onLeave?: () => void;
}

export function PlatformForm({ stored, onSaved, onLeave }: Props) {
  const units = useUnits();
  const save = useSavePlatform();
  const fits = useLifeFits();
  const form = useRef<HTMLFormElement>(null);
  /** what the fields began with: others may change the rest meanwhile */
  const [before, setBefore] = useState(stored);
  const isNew = before.id === '';
  const [draft, setDraft] = useState<PlatformDraft>(() => toDraft(before, units));
  // Figures in other units would be read as what they are not.
  const [shownUnits, setShownUnits] = useState(units);
  if (shownUnits !== units) {
    setShownUnits(units);
    setDraft(toDraft(before, units));
  }
  const [isTried, setTried] = useState(false);
  useEffect(() => {
    if (isNew) form.current?.querySelector('input')?.focus();
  }, [isNew]);
  const taken = (usePlatforms().data ?? []).map(({ id }) => id);
  const { change, faults, touched } = readDraft(draft, before, units, taken);
  const putBack = () => {
    setBefore(stored);
    setDraft(toDraft(stored, units));
  };
  if (!touched && before !== stored) putBack();
  const rested = readDraft(JSON.parse(useRested(JSON.stringify(draft))) as PlatformDraft, before, units);
  const warning = warnOf(change, before);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (change === null) return;
    save.mutate(change, {
      onSuccess: () => {
        setTried(false);
        const saved = applyChange(before, change);
        setBefore(saved);
        // What was typed while it was saved stays.
        setDraft((now) => (now === draft ? toDraft(saved, units) : now));
        onSaved?.(change.id);
      },
    });
  };
  const shownFaults = Object.fromEntries(
    (Object.keys(serverNames) as (keyof PlatformDraft)[]).flatMap((field) => {
      // What is missing in a new form is told once somebody tries to save it.
      const own = draft[field].trim() === '' && !isTried && isNew ? undefined : faults[field];
      const fault = own ?? findFieldError(save.error, serverNames[field]);
      return fault === undefined ? [] : [[field, fault]];
    }),
  );
  const isTold = Object.keys(shownFaults).length > 0;
  return (
    <form
      ref={form}
      className={settingsStyles.sheet}
      noValidate
      onSubmit={submit}
      aria-label={isNew ? 'New platform' : `Platform ${before.name}`}
    >
      {isNew && <h2>New platform</h2>}
      {save.isError && !isTold && <ProblemNote error={save.error} />}
      <div className={settingsStyles.columns}>
        <div className={settingsStyles.stack}>
          <PlatformFields
            draft={draft}
            faults={shownFaults}
            isNew={isNew}
            solenoid={readSolenoid(draft, before)}
            life={sayPlatformLife(
              fits.data?.fits.find(({ platform }) => platform === before.id),
              units,
            )}
            onChange={(patch) => setDraft({ ...draft, ...patch })}
          />
          {warning !== null && (
            <p className={settingsStyles.warning} role="status">
              {warning}
            </p>
          )}
          <div className={styles.buttons}>
            <Button type="submit" kind="main" disabled={save.isPending || (!isNew && !touched)}>
              {isNew ? 'Make the platform' : 'Save the platform'}
            </Button>
            {onLeave !== undefined && (
              <Button kind="quiet" onClick={onLeave}>
                Leave it
              </Button>
            )}
            {!isNew && touched && (
              <Button kind="quiet" onClick={putBack}>
                Put back what is stored
              </Button>
            )}
            <span className={settingsStyles.small} role="status">
              {save.isSuccess && !touched ? 'Saved. The list follows within seconds.' : ''}
            </span>
          </div>
          {!isNew && (
            <p className={settingsStyles.small}>
              <Link to="/settings/changes" search={{ subject: 'platform', subject_id: before.id }}>
                What was changed about {before.name}
              </Link>
            </p>
          )}
        </div>
        {!isNew && (
          <div className={settingsStyles.stack}>
            <EffectPanel
              request={toPreview(rested.change, before)}
              none={
                rested.change === null
                  ? 'It is shown once every figure is right.'
                  : 'Change the limit, the expected life or a cost to see here what it would do.'
              }
            />
            {rested.change?.reference !== undefined && (
              <p className={settingsStyles.warning}>
                Another reference point makes every stretch of these vehicles anew from their readings, which
                can take minutes. What that does to the list cannot be shown before. Stretches whose readings
                are no longer kept stay as they are.
              </p>
            )}
          </div>
        )}
      </div>
    </form>
  );
}
