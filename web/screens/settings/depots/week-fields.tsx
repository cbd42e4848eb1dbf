import { type Weekday, weekdays } from '#server/contract/words.ts';
import { Button } from '#web/ui/button.tsx';
import { BareField } from './bare-field.tsx';
import type { DayDraft, DepotDraft } from './depot-draft.ts';
import styles from './depots.module.css';

interface Props {
  week: DepotDraft['week'];
  errorOf: (field: string) => string | undefined;
  onChange: (week: DepotDraft['week']) => void;
}

const nameOf = (day: Weekday): string => day.charAt(0).toUpperCase() + day.slice(1);

/** Open or closed, and from when to when, on each weekday. */
export function WeekFields({ week, errorOf, onChange }: Props) {
  const set = (day: Weekday, patch: Partial<DayDraft>) =>
    onChange({ ...week, [day]: { ...week[day], ...patch } });
  const first = weekdays.find((day) => week[day].open);
  const isUneven = weekdays.some(
    (day) =>
      week[day].open &&
      first !== undefined &&
      (week[day].from !== week[first].from || week[day].to !== week[first].to),
  );
  const spread = (from: Weekday) =>
    onChange(
      Object.fromEntries(
        weekdays.map((day) => [day, week[day].open ? { ...week[from], open: true } : week[day]]),
      ) as DepotDraft['week'],
    );
  const fault = errorOf('week');
  return (
    <fieldset className={styles.week}>
      <legend className={styles.legend}>Hours of a week, in the time of the depot</legend>
      {weekdays.map((day) => (
        <div key={day} className={styles.weekday}>
          <label className={styles.tick}>
            <input
              type="checkbox"
              checked={week[day].open}
              onChange={() => set(day, { open: !week[day].open })}
            />
            {nameOf(day)}
          </label>
          {week[day].open ? (
            <>
              <BareField
                label={`${nameOf(day)} from`}
                error={errorOf(`week.${day}.from`)}
                value={week[day].from}
                onChange={(from) => set(day, { from })}
              />
              <span className={styles.until}>to</span>
              <BareField
                label={`${nameOf(day)} to`}
                error={errorOf(`week.${day}.to`)}
                value={week[day].to}
                onChange={(to) => set(day, { to })}
              />
            </>
          ) : (
            <span className={styles.shut}>closed</span>
          )}
        </div>
      ))}
      {fault !== undefined && (
        <p className={styles.error} role="status">
          {fault}
        </p>
      )}
      {first !== undefined && isUneven && (
        <p>
          <Button kind="quiet" onClick={() => spread(first)}>
            {nameOf(first)}’s hours for every open day
          </Button>
        </p>
      )}
    </fieldset>
  );
}
