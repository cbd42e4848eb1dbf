import { useRef } from 'react';
import { flushSync } from 'react-dom';
import { formatDaySpan } from '#web/format/format-day.ts';
import { Button } from '#web/ui/button.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './home.module.css';
import type { AwayDraft } from './home-draft.ts';

interface Props {
  days: readonly AwayDraft[];
  today: string;
  errorOf: (field: string) => string | undefined;
  onChange: (days: AwayDraft[]) => void;
}

/** Days on which a vehicle cannot be taken; those that are over are folded away. */
export function AwayFields({ days, today, errorOf, onChange }: Props) {
  const placed = days.map((one, index) => ({ one, index }));
  // By what is stored: the year of a day that is being typed goes through the years 2, 20 and 202.
  const isPast = ({ stored }: AwayDraft) => stored !== '' && stored < today;
  const past = placed.filter(({ one }) => isPast(one));
  const set = (key: number, patch: Partial<AwayDraft>) =>
    onChange(days.map((one) => (one.key === key ? { ...one, ...patch } : one)));
  const remove = (key: number) => onChange(days.filter((one) => one.key !== key));
  const button = useRef<HTMLParagraphElement>(null);
  const add = () => {
    const key = Math.max(-1, ...days.map((one) => one.key)) + 1;
    flushSync(() => onChange([...days, { key, stored: '', from: '', to: '', note: '' }]));
    button.current?.previousElementSibling?.querySelector('input')?.focus();
  };
  return (
    <fieldset className={styles.away}>
      <legend className={styles.legend}>Days on which it cannot be taken</legend>
      {placed
        .filter(({ one }) => !isPast(one))
        .map(({ one, index }) => (
          <div key={one.key} className={styles.span}>
            <TextField
              label="From"
              type="date"
              min="1900-01-01"
              max="2199-12-31"
              error={errorOf(`unavailable.${index}.from`)}
              value={one.from}
              onChange={(from) => set(one.key, { from })}
            />
            <TextField
              label="To, included"
              type="date"
              min={one.from === '' ? '1900-01-01' : one.from}
              max="2199-12-31"
              error={errorOf(`unavailable.${index}.to`)}
              value={one.to}
              onChange={(to) => set(one.key, { to })}
            />
            <TextField
              label="Note"
              placeholder="why"
              autoComplete="off"
              maxLength={120}
              error={errorOf(`unavailable.${index}.note`)}
              value={one.note}
              onChange={(note) => set(one.key, { note })}
            />
            <Button
              kind="quiet"
              aria-label={`Remove the days ${one.from === '' ? 'without a date' : `from ${one.from}`}`}
              onClick={() => remove(one.key)}
            >
              Remove
            </Button>
          </div>
        ))}
      <p ref={button}>
        <Button onClick={add}>Add days</Button>
      </p>
      {past.length > 0 && (
        <details className={styles.past}>
          <summary>
            {past.length} that {past.length === 1 ? 'is' : 'are'} over
          </summary>
          <ul>
            {past.map(({ one }) => (
              <li key={one.key}>
                <span>
                  {formatDaySpan(one.from, one.to || one.from)}
                  {one.note !== '' && `, ${one.note}`}
                </span>
                <Button
                  kind="quiet"
                  aria-label={`Remove the days from ${one.from}`}
                  onClick={() => remove(one.key)}
                >
                  Remove
                </Button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </fieldset>
  );
}
