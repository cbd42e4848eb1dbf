import styles from './choice-group.module.css';

interface Props<T extends string> {
  legend: string;
  name: string;
  options: readonly { value: T; label: string; spoken?: string }[];
  value: T;
  onChoose: (value: T) => void;
}

/** A few options of which one is taken, all in sight. */
export function ChoiceGroup<T extends string>({ legend, name, options, value, onChoose }: Props<T>) {
  return (
    <fieldset className={styles.group}>
      <legend className={styles.legend}>{legend}</legend>
      <div className={styles.options}>
        {options.map((option) => (
          <label key={option.value} className={styles.option}>
            <input
              type="radio"
              name={name}
              checked={option.value === value}
              onChange={() => onChoose(option.value)}
              aria-label={option.spoken}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
