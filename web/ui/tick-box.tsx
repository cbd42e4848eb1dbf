import styles from './tick-box.module.css';

interface Props {
  label: string;
  checked: boolean;
  disabled?: boolean;
  onChange: () => void;
}

/** A quiet box with a wide target. */
export function TickBox({ label, checked, disabled = false, onChange }: Props) {
  return (
    <label className={styles.target} title={label}>
      <input
        type="checkbox"
        className={styles.box}
        checked={checked}
        disabled={disabled}
        onChange={onChange}
        aria-label={label}
      />
    </label>
  );
}
