import { useRef } from 'react';
import { ChoiceLine, ChoiceLines } from '#web/ui/choice-lines.tsx';
import { useCloseOutside } from '#web/ui/use-close-outside.ts';
import styles from './choices.module.css';
import { joinIds, splitIds } from './lives-search.ts';

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
        <span className={styles.severalLabel}>{label}</span>
        <span className={styles.severalValue}>{names.length === 0 ? 'all' : names.join(', ')}</span>
      </summary>
      <div className={styles.severalList}>
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
