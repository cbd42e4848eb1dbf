import { formatDay } from '#web/format/format-day.ts';
import { Button } from '#web/ui/button.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import type { SpecialDraft } from './depot-draft.ts';
import styles from './depots.module.css';

interface Props {
  day: SpecialDraft;
  errorOf: (field: string) => string | undefined;
  onChange: (patch: Partial<SpecialDraft>) => void;
  onRemove: () => void;
}

export function SpecialDayLine({ day, errorOf, onChange, onRemove }: Props) {
  const name = day.day === '' ? 'the new day' : formatDay(day.day);
  return (
    <li className={styles.special}>
      <TextField
        label="Day"
        type="date"
        min="1900-01-01"
        max="2199-12-31"
        error={errorOf('day')}
        value={day.day}
        onChange={(next) => onChange({ day: next })}
      />
      <label className={styles.tick}>
        <input type="checkbox" checked={day.closed} onChange={() => onChange({ closed: !day.closed })} />
        closed
      </label>
      {day.closed ? (
        <span className={styles.nothing} />
      ) : (
        <>
          <TextField
            label="Bays"
            inputMode="numeric"
            autoComplete="off"
            maxLength={3}
            placeholder="usual"
            error={errorOf('bays')}
            value={day.bays}
            onChange={(bays) => onChange({ bays })}
          />
          <TextField
            label="From"
            inputMode="numeric"
            autoComplete="off"
            maxLength={5}
            placeholder="usual"
            error={errorOf('hours.from')}
            value={day.from}
            onChange={(from) => onChange({ from })}
          />
          <TextField
            label="To"
            inputMode="numeric"
            autoComplete="off"
            maxLength={5}
            placeholder="usual"
            error={errorOf('hours.to') ?? errorOf('hours')}
            value={day.to}
            onChange={(to) => onChange({ to })}
          />
        </>
      )}
      <div className={styles.note}>
        <TextField
          label="Note"
          autoComplete="off"
          maxLength={120}
          placeholder="what it is"
          error={errorOf('note')}
          value={day.note}
          onChange={(note) => onChange({ note })}
        />
      </div>
      <Button kind="quiet" aria-label={`Remove ${name}`} onClick={onRemove}>
        Remove
      </Button>
    </li>
  );
}
