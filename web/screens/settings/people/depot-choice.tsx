import { useId } from 'react';
import { useDepots } from '#web/api/use-fleet.ts';
import styles from './depot-choice.module.css';

interface Props {
  /** null for all depots, those of the future too */
  value: readonly string[] | null;
  error?: string | undefined;
  onChange: (depots: string[] | null) => void;
}

export function DepotChoice({ value, error, onChange }: Props) {
  const id = useId();
  const depots = useDepots();
  const known = depots.data ?? [];
  const chosen = value ?? [];
  // A depot that was taken away since still stands with the person until somebody takes it off.
  const gone = chosen.filter((one) => depots.data !== undefined && !known.some((depot) => depot.id === one));
  const lines = [...known, ...gone.map((one) => ({ id: one, name: one }))];
  const toggle = (depot: string) =>
    onChange(chosen.includes(depot) ? chosen.filter((one) => one !== depot) : [...chosen, depot]);
  return (
    <fieldset className={styles.group} aria-describedby={error === undefined ? undefined : `${id}-error`}>
      <legend className={styles.legend}>Depots</legend>
      <label className={styles.line}>
        <input type="radio" name={id} checked={value === null} onChange={() => onChange(null)} />
        all depots, later ones too
      </label>
      <label className={styles.line}>
        <input type="radio" name={id} checked={value !== null} onChange={() => onChange([])} />
        only these
      </label>
      {value !== null && (
        <div className={styles.depots}>
          {lines.length === 0 && <p className={styles.none}>No depot is set up yet.</p>}
          {lines.map((depot) => (
            <label key={depot.id} className={styles.line}>
              <input type="checkbox" checked={chosen.includes(depot.id)} onChange={() => toggle(depot.id)} />
              {depot.name}
            </label>
          ))}
        </div>
      )}
      {error !== undefined && (
        <p className={styles.error} id={`${id}-error`}>
          {error}
        </p>
      )}
    </fieldset>
  );
}
