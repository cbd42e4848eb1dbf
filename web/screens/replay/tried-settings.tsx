import type { Platform } from '#server/contract/fleet.ts';
import {
  type ThresholdField,
  thresholdFields,
  toDraft as toThresholdsDraft,
} from '#web/format/thresholds-draft.ts';
import { splitIds } from '#web/ui/joined-ids.ts';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './replay.module.css';
import type { Present, ReplayDraft } from './replay-draft.ts';

const fieldWords: Record<ThresholdField, string> = {
  hold_chance: 'Hold from a chance of, %',
  book_chance: 'Book from a chance of, %',
  evidence_q: 'False alarms, at most, %',
  quiet_days: 'Unknown after days without a reading',
};

interface Props {
  draft: ReplayDraft;
  present: Present;
  platforms: readonly Platform[];
  errorOf: (field: string) => string | undefined;
  onChange: (patch: Partial<ReplayDraft>) => void;
}

/** Other thresholds and limits, tried in the replay alone; folded away until one differs. */
export function TriedSettings({ draft, present, platforms, errorOf, onChange }: Props) {
  const used = toThresholdsDraft(present.thresholds);
  const chosen = splitIds(draft.platforms);
  const shown = platforms.filter(({ id }) => chosen.length === 0 || chosen.includes(id));
  const isOther = thresholdFields.some((field) => draft.thresholds[field] !== used[field]);
  const hasLimits = Object.values(draft.limits).some((text) => text.trim() !== '');
  return (
    <details className={styles.tried} open={isOther || hasLimits || undefined}>
      <summary>
        Other thresholds and limits to try
        <span className={styles.soft}>{isOther || hasLimits ? '' : ': none, as they are in use'}</span>
      </summary>
      <p className={styles.words}>They are tried in this replay alone. The settings stay as they are.</p>
      <div className={styles.fields}>
        {thresholdFields.map((field) => (
          <TextField
            key={field}
            label={fieldWords[field]}
            hint={`In use: ${used[field]}`}
            error={errorOf(`thresholds.${field}`)}
            inputMode="decimal"
            autoComplete="off"
            maxLength={12}
            value={draft.thresholds[field]}
            onChange={(text) => onChange({ thresholds: { ...draft.thresholds, [field]: text } })}
          />
        ))}
      </div>
      <div className={styles.fields}>
        {shown.map(({ id, name, limit_rpm }) => (
          <TextField
            key={id}
            label={`Limit of ${name}, rpm`}
            hint={`In use: ${limit_rpm}`}
            error={errorOf(`limits_rpm.${id}`)}
            inputMode="decimal"
            autoComplete="off"
            maxLength={8}
            value={draft.limits[id] ?? ''}
            onChange={(text) => onChange({ limits: { ...draft.limits, [id]: text } })}
          />
        ))}
      </div>
    </details>
  );
}
