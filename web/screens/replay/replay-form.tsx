import { type FormEvent, useEffect, useState } from 'react';
import { useDepots, usePlatforms } from '#web/api/use-fleet.ts';
import { useStartReplay } from '#web/api/use-replay.ts';
import { readDraft as readThresholds, warnOf } from '#web/format/thresholds-draft.ts';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import formStyles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import { SeveralField } from '#web/ui/several-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { useRested } from '#web/ui/use-rested.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './replay.module.css';
import {
  isSame,
  type Present,
  type ReplayDraft,
  readReplayDraft,
  toDraft,
  toSearch,
} from './replay-draft.ts';
import type { ReplaySearch } from './replay-search.ts';
import { TriedSettings } from './tried-settings.tsx';

interface Props {
  search: ReplaySearch;
  present: Present;
  /** what was typed has rested: the address is to say it */
  onType: (search: ReplaySearch) => void;
  onStarted: (id: number) => void;
}

export function ReplayForm({ search, present, onType, onStarted }: Props) {
  const units = useUnits();
  const start = useStartReplay();
  const platforms = usePlatforms().data ?? [];
  const depots = useDepots().data ?? [];
  const [draft, setDraft] = useState<ReplayDraft>(() => toDraft(search, present));
  const { question, faults } = readReplayDraft(draft, present);
  const typed = JSON.stringify(toSearch(draft, present));
  const rested = useRested(typed);
  useEffect(() => {
    if (rested === typed && rested !== JSON.stringify(search)) onType(JSON.parse(rested) as ReplaySearch);
  });
  const change = (patch: Partial<ReplayDraft>) => setDraft({ ...draft, ...patch });
  const errorOf = (field: string) => faults[field] ?? findFieldError(start.error, field);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (question !== null) start.mutate(question, { onSuccess: ({ id }) => onStarted(id) });
  };
  const fields = ['from', 'to', 'platforms', 'depots', 'horizon_km', 'note'];
  const isTold = fields.some((field) => findFieldError(start.error, field) !== undefined);
  const tried = readThresholds(draft.thresholds).value;
  const warning = tried === null || isSame(tried, present.thresholds) ? null : warnOf(tried);
  return (
    <form className={styles.form} noValidate onSubmit={submit} aria-label="A new replay">
      <h2>A new replay</h2>
      {start.isError && !isTold && <ProblemNote error={start.error} />}
      <div className={styles.fields}>
        <TextField
          label="From"
          type="date"
          max={present.until}
          value={draft.from}
          error={errorOf('from')}
          onChange={(from) => change({ from })}
        />
        <TextField
          label="To, included"
          type="date"
          max={present.until}
          value={draft.to}
          error={errorOf('to')}
          onChange={(to) => change({ to })}
        />
        <SeveralField
          label="Platforms"
          value={draft.platforms}
          options={platforms}
          onChange={(joined) => change({ platforms: joined })}
        />
        <SeveralField
          label="Depots"
          value={draft.depots}
          options={depots}
          onChange={(joined) => change({ depots: joined })}
        />
        <TextField
          label={`Planning horizon, ${units.distance}`}
          inputMode="numeric"
          autoComplete="off"
          maxLength={8}
          value={draft.horizon}
          error={errorOf('horizon_km')}
          onChange={(horizon) => change({ horizon })}
        />
      </div>
      <TriedSettings
        draft={draft}
        present={present}
        platforms={platforms}
        errorOf={errorOf}
        onChange={change}
      />
      {warning !== null && (
        <p className={styles.warning} role="status">
          {warning}
        </p>
      )}
      <RadioLines
        legend="Plain rules beside the list"
        value={draft.rules}
        options={[
          {
            value: 'matched',
            label: 'As often as the list',
            words: 'Each rule gets the threshold at which it asks for as many inspections.',
          },
          { value: 'own', label: 'Thresholds of your own', words: 'One left empty is set as above.' },
        ]}
        onChange={(rules) => change({ rules })}
      />
      {draft.rules === 'own' && (
        <div className={styles.fields}>
          <TextField
            label="Slip from, % of the limit"
            inputMode="decimal"
            autoComplete="off"
            maxLength={8}
            value={draft.level}
            error={errorOf('rules.slip_level_pct')}
            onChange={(level) => change({ level })}
          />
          <TextField
            label="Rise above the week before, rpm"
            inputMode="decimal"
            autoComplete="off"
            maxLength={8}
            value={draft.rise}
            error={errorOf('rules.weekly_rise_rpm')}
            onChange={(rise) => change({ rise })}
          />
        </div>
      )}
      <div className={styles.note}>
        <TextField
          label="Note"
          hint="What this one is for; it stands in the list of replays."
          autoComplete="off"
          maxLength={200}
          value={draft.note}
          error={errorOf('note')}
          onChange={(note) => change({ note })}
        />
      </div>
      <div className={formStyles.buttons}>
        <Button type="submit" kind="main" disabled={question === null || start.isPending}>
          Run this period again
        </Button>
        {question === null && <span className={styles.soft}>A field above has to be put right first.</span>}
        {typed !== '{}' && (
          <Button kind="quiet" onClick={() => setDraft(toDraft({}, present))}>
            Put back what is in use
          </Button>
        )}
      </div>
    </form>
  );
}
