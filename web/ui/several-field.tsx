import { useRef } from 'react';
import { ChoiceLine, ChoiceLines } from './choice-lines.tsx';
import { joinIds, splitIds } from './joined-ids.ts';
import styles from './several-field.module.css';
import { useCloseOutside } from './use-close-outside.ts';

interface Props {
  label: string;
  /** ids with commas between; all where left out */
  value: string | undefined;
  options: readonly { id: string; name: string }[];
  onChange: (joined: string | undefined) => void;
}

/** Several of a few, folded away; none ticked stands for all. */
export function SeveralField({ label, value, options, onChange }: Props) {
  const panel = useRef<HTMLDetailsElement>(null);
  useCloseOutside(panel);
  const chosen = splitIds(value);
  const unknown = chosen.filter((id) => options.every((one) => one.id !== id));
  const all = [...options, ...unknown.map((id) => ({ id, name: id }))];
  const names = all.filter(({ id }) => chosen.includes(id)).map(({ name }) => name);
  const toggle = (id: string) =>
    onChange(joinIds(chosen.includes(id) ? chosen.filter((one) => one !== id) : [...chosen, id]));
  return (
    <details className={styles.several} ref={panel}>
      <summary>
        <span className={styles.label}>{label}</span>
        <span className={styles.value}>{names.length === 0 ? 'all' : names.join(', ')}</span>
      </summary>
      <div className={styles.list}>
        <ChoiceLines legend={`${label}: none ticked is all`}>
          {all.map(({ id, name }) => (
            <ChoiceLine
              key={id}
              type="checkbox"
              label={name}
              checked={chosen.includes(id)}
              onChange={() => toggle(id)}
            />
          ))}
        </ChoiceLines>
      </div>
    </details>
  );
}
