import { useId } from 'react';
import type { Role } from '#server/contract/words.ts';
import { useDepots } from '#web/api/use-fleet.ts';
import { ChoiceLine, ChoiceLines } from '#web/ui/choice-lines.tsx';
import styles from './depot-choice.module.css';

interface Props {
  role: Role;
  /** null for all depots, those of the future too */
  value: readonly string[] | null;
  error?: string | undefined;
  onChange: (depots: string[] | null) => void;
}

export function DepotChoice({ role, value, error, onChange }: Props) {
  const id = useId();
  const depots = useDepots();
  const known = depots.data ?? [];
  const chosen = value ?? [];
  // A depot that was taken away since still stands with the person until somebody takes it off.
  const gone = chosen.filter((one) => depots.data !== undefined && !known.some((depot) => depot.id === one));
  const lines = [...known, ...gone.map((one) => ({ id: one, name: one }))];
  const toggle = (depot: string) =>
    onChange(chosen.includes(depot) ? chosen.filter((one) => one !== depot) : [...chosen, depot]);
  if (role === 'admin')
    return (
      <ChoiceLines legend="Depots">
        <p className={styles.none}>An admin works for all depots.</p>
      </ChoiceLines>
    );
  return (
    <ChoiceLines legend="Depots" describedBy={error === undefined ? undefined : `${id}-error`}>
      <ChoiceLine
        type="radio"
        name={id}
        label="all depots, later ones too"
        checked={value === null}
        onChange={() => onChange(null)}
      />
      <ChoiceLine
        type="radio"
        name={id}
        label="only these"
        checked={value !== null}
        onChange={() => onChange([])}
      />
      {value !== null && (
        <div className={styles.depots}>
          {lines.length === 0 && <p className={styles.none}>No depot is set up yet.</p>}
          {lines.map((depot) => (
            <ChoiceLine
              key={depot.id}
              type="checkbox"
              label={depot.name}
              checked={chosen.includes(depot.id)}
              onChange={() => toggle(depot.id)}
            />
          ))}
        </div>
      )}
      {error !== undefined && (
        <p className={styles.error} id={`${id}-error`}>
          {error}
        </p>
      )}
    </ChoiceLines>
  );
}
