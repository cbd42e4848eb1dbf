import styles from './tick-box.module.css';

interface Props {
  label: string;
  /** `some`: stands for several, of which some are ticked */
  checked: boolean | 'some';
  disabled?: boolean;
  /** told whether Shift was held */
  onChange: (withShift: boolean) => void;
}

/** A quiet box with a wide target. */
export function TickBox({ label, checked, disabled = false, onChange }: Props) {
  return (
    <label className={styles.target} title={label}>
      <input
        ref={(box) => {
          if (box !== null) box.indeterminate = checked === 'some';
        }}
        type="checkbox"
        className={styles.box}
        checked={checked === true}
        disabled={disabled}
        onChange={({ nativeEvent }) => onChange('shiftKey' in nativeEvent && nativeEvent.shiftKey === true)}
        aria-label={label}
      />
    </label>
  );
}
