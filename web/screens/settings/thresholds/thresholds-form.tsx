import { Link } from '@tanstack/react-router';
import { type FormEvent, useState } from 'react';
import type { Thresholds } from '#server/contract/settings.ts';
import { useSaveThresholds } from '#web/api/use-thresholds.ts';
import { formatKm } from '#web/format/format-km.ts';
import {
  readDraft,
  type ThresholdField,
  type ThresholdsDraft,
  thresholdFields,
  toDraft,
  usualThresholds,
  warnOf,
} from '#web/format/thresholds-draft.ts';
import type { Units } from '#web/format/units.ts';
import { EffectPanel } from '#web/screens/settings/effect/effect-panel.tsx';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { usualHorizonKm } from '#web/ui/rail-geometry.ts';
import { TextField } from '#web/ui/text-field.tsx';
import { useRested } from '#web/ui/use-rested.ts';
import { useUnits } from '#web/ui/use-units.ts';

const soonKm = 1000;

const sayFields = (units: Units): Record<ThresholdField, { label: string; hint: string }> => ({
  hold_chance: {
    label: 'Hold from a chance of, %',
    hint: `Chance that the limit is passed now or within ${formatKm(soonKm, units)}: the vehicle stays in the depot.`,
  },
  book_chance: {
    label: 'Book from a chance of, %',
    hint: `Chance that the limit is reached within ${formatKm(usualHorizonKm, units)}: an inspection is booked.`,
  },
  evidence_q: {
    label: 'False alarms among drifting vehicles, at most, %',
    hint: 'A vehicle is said to drift, and can be held, booked or watched for it, only where the evidence keeps this share. Less asks for more evidence.',
  },
  quiet_days: {
    label: 'Unknown after so many days without a reading',
    hint: 'Then nobody can say that slip is still steady. 14 at the least: a shorter silence is not noted.',
  },
});

const isSame = (a: Thresholds | null, b: Thresholds): boolean =>
  a !== null && thresholdFields.every((field) => a[field] === b[field]);

export function ThresholdsForm({ stored }: { stored: Thresholds }) {
  const save = useSaveThresholds();
  const [draft, setDraft] = useState<ThresholdsDraft>(() => toDraft(stored));
  const { value, faults } = readDraft(draft);
  const rested = readDraft(JSON.parse(useRested(JSON.stringify(draft))) as ThresholdsDraft);
  const words = sayFields(useUnits());
  const isChanged = value === null || !isSame(value, stored);
  const warning = value === null ? null : warnOf(value);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (value !== null) save.mutate(value);
  };
  const isTold = thresholdFields.some((field) => findFieldError(save.error, field) !== undefined);
  return (
    <form className={settingsStyles.stack} noValidate onSubmit={submit} aria-label="Thresholds">
      {save.isError && !isTold && <ProblemNote error={save.error} />}
      <div className={settingsStyles.columns}>
        <div className={settingsStyles.stack}>
          {thresholdFields.map((field) => (
            <TextField
              key={field}
              {...words[field]}
              error={faults[field] ?? findFieldError(save.error, field)}
              inputMode="decimal"
              autoComplete="off"
              maxLength={12}
              value={draft[field]}
              onChange={(text) => setDraft({ ...draft, [field]: text })}
            />
          ))}
          {warning !== null && (
            <p className={settingsStyles.warning} role="status">
              {warning}
            </p>
          )}
          <div className={styles.buttons}>
            <Button type="submit" kind="main" disabled={!isChanged || value === null || save.isPending}>
              Save the thresholds
            </Button>
            {!isSame(value, usualThresholds) && (
              <Button kind="quiet" onClick={() => setDraft(toDraft(usualThresholds))}>
                Put back what is usual
              </Button>
            )}
            <span className={settingsStyles.small} role="status">
              {save.isSuccess && !isChanged ? 'Saved. The list is ranked again within seconds.' : ''}
            </span>
          </div>
          <p className={settingsStyles.small}>
            What is usual is our own choice, calibrated on simulated fleets; there is no standard for it.{' '}
            <Link to="/settings/changes" search={{ subject: 'thresholds' }}>
              What was changed before
            </Link>
          </p>
        </div>
        <EffectPanel
          request={
            rested.value === null || isSame(rested.value, stored) ? null : { thresholds: rested.value }
          }
          none={
            rested.value === null
              ? 'It is shown once every figure is right.'
              : 'Change a figure to see here what it would do.'
          }
        />
      </div>
    </form>
  );
}
