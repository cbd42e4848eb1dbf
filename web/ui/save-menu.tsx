import { useRef } from 'react';
import styles from './save-menu.module.css';
import { useCloseOutside } from './use-close-outside.ts';

interface Props {
  /** What is kept, for those who hear the button alone. */
  what: string;
  options: readonly { label: string; onChoose: () => void }[];
}

/** One quiet word that opens the kinds of file something can be kept as. */
export function SaveMenu({ what, options }: Props) {
  const menu = useRef<HTMLDetailsElement>(null);
  useCloseOutside(menu);
  return (
    <details className={styles.menu} ref={menu} name="save">
      <summary className={styles.summary} aria-label={`Save ${what}`}>
        Save
      </summary>
      <div className={styles.panel}>
        {options.map(({ label, onChoose }) => (
          <button
            key={label}
            type="button"
            onClick={() => {
              menu.current?.removeAttribute('open');
              menu.current?.querySelector('summary')?.focus();
              onChoose();
            }}
          >
            {label}
          </button>
        ))}
      </div>
    </details>
  );
}
