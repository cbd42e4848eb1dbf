import type { BayPlan } from '#server/contract/bookings.ts';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './beside.module.css';

/** Day, bay and time as a form has them: '' for whatever is free first. */
export interface Times {
  depot: string;
  day: string;
  bay: string;
  from: string;
  hours: string;
}

interface Props {
  times: Times;
  plan: BayPlan;
  onChange: (times: Times) => void;
  errorOf: (field: keyof Times) => string | undefined;
  /** what an empty length means */
  usualHours: string;
  /** what is said of the day */
  hint?: string | undefined;
}

/** Depot, day, bay, time and length. Another day or depot lets go of bay and time: what is free there is found anew. */
export function TimeFields({ times, plan, onChange, errorOf, usualHours, hint }: Props) {
  const set = (patch: Partial<Times>) =>
    onChange({
      ...times,
      ...(patch.day !== undefined || patch.depot !== undefined ? { bay: '', from: '' } : {}),
      ...patch,
    });
  const depot = plan.depots.find(({ id }) => id === times.depot);
  const bays = depot?.days.find(({ day }) => day === times.day)?.bays ?? depot?.bays ?? 0;
  const options = Array.from({ length: bays }, (_, i) => String(i + 1));
  const isMissing = times.bay !== '' && !options.includes(times.bay);
  return (
    <div className={styles.times}>
      <div className={styles.whole}>
        <SelectField
          label="Depot"
          value={times.depot}
          options={[
            ...(depot === undefined ? [{ value: times.depot, label: times.depot || 'choose a depot' }] : []),
            ...plan.depots.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={(value) => set({ depot: value })}
          error={errorOf('depot')}
        />
      </div>
      <div className={styles.whole}>
        <TextField
          label="Day"
          type="date"
          value={times.day}
          min={depot?.today}
          onChange={(day) => set({ day })}
          hint={hint}
          error={errorOf('day')}
        />
      </div>
      <SelectField
        label="Bay"
        value={times.bay}
        options={[
          { value: '', label: 'first free' },
          ...options.map((bay) => ({ value: bay, label: `bay ${bay}` })),
          ...(isMissing ? [{ value: times.bay, label: `no bay ${times.bay}` }] : []),
        ]}
        onChange={(bay) => set({ bay })}
        error={
          errorOf('bay') ??
          (isMissing && depot !== undefined ? sayMissing(depot.name, times, bays) : undefined)
        }
      />
      <TextField
        label="From"
        type="time"
        step={900}
        value={times.from}
        onChange={(from) => set({ from })}
        error={errorOf('from')}
      />
      <TextField
        label="Length, h"
        type="number"
        inputMode="decimal"
        min={0.25}
        max={24}
        step={0.25}
        value={times.hours}
        placeholder={usualHours}
        onChange={(hours) => set({ hours })}
        error={errorOf('hours')}
      />
    </div>
  );
}

const sayMissing = (depot: string, { day, bay }: Times, bays: number): string =>
  `There is no bay ${bay}: ${depot} has ${bays === 0 ? 'none' : bays === 1 ? 'one' : bays}${day === '' ? '' : ' on this day'}.`;
