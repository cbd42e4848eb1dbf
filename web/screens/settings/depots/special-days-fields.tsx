import { useId, useRef } from 'react';
import { flushSync } from 'react-dom';
import { formatDay } from '#web/format/format-day.ts';
import { todayAt } from '#web/format/zones.ts';
import { Button } from '#web/ui/button.tsx';
import type { SpecialDraft } from './depot-draft.ts';
import styles from './depots.module.css';
import { SpecialDayLine } from './special-day-line.tsx';

interface Props {
  days: readonly SpecialDraft[];
  timeZone: string;
  errorOf: (field: string) => string | undefined;
  onChange: (days: SpecialDraft[]) => void;
}

/** Days that differ from their weekday; those that are over are folded away. */
export function SpecialDaysFields({ days, timeZone, errorOf, onChange }: Props) {
  const id = useId();
  const today = todayAt(timeZone, new Date());
  const placed = days.map((one, index) => ({ one, index }));
  // By what is stored: the year of a day that is being typed goes through the years 2, 20 and 202.
  const isPast = ({ stored }: SpecialDraft) => stored !== '' && stored < today;
  const past = placed.filter(({ one }) => isPast(one));
  const ahead = placed.filter(({ one }) => !isPast(one));
  const remove = (key: number) => onChange(days.filter((one) => one.key !== key));
  const line = ({ one, index }: (typeof placed)[number]) => (
    <SpecialDayLine
      key={one.key}
      day={one}
      errorOf={(field) => errorOf(`special_days.${index}.${field}`)}
      onChange={(patch) =>
        onChange(days.map((other) => (other.key === one.key ? { ...other, ...patch } : other)))
      }
      onRemove={() => remove(one.key)}
    />
  );
  const lines = useRef<HTMLUListElement>(null);
  const add = () => {
    const key = Math.max(-1, ...days.map((one) => one.key)) + 1;
    flushSync(() =>
      onChange([...days, { key, stored: '', day: '', closed: true, bays: '', from: '', to: '', note: '' }]),
    );
    lines.current?.lastElementChild?.querySelector('input')?.focus();
  };
  return (
    <section className={styles.specials} aria-labelledby={`${id}-title`}>
      <h2 className={styles.title} id={`${id}-title`}>
        Special days
      </h2>
      <p className={styles.soft}>
        Holidays, short days, days with fewer bays, a Saturday more: what is left empty is as on any such
        weekday.
      </p>
      {ahead.length > 0 && (
        <ul ref={lines} className={styles.lines}>
          {ahead.map(line)}
        </ul>
      )}
      <p>
        <Button onClick={add}>Add a special day</Button>
      </p>
      {past.length > 0 && (
        <details className={styles.past}>
          <summary>
            {past.length} {past.length === 1 ? 'day that is' : 'days that are'} over
          </summary>
          <ul className={styles.gone}>
            {past.map(({ one }) => (
              <li key={one.key}>
                <span>
                  {formatDay(one.day)} {one.day.slice(0, 4)}
                  {one.note !== '' && `, ${one.note}`}
                </span>
                <Button
                  kind="quiet"
                  aria-label={`Remove ${formatDay(one.day)} ${one.day.slice(0, 4)}`}
                  onClick={() => remove(one.key)}
                >
                  Remove
                </Button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
