import { useId } from 'react';
import { ChoiceLine, ChoiceLines } from './choice-lines.tsx';

interface Props<T extends string> {
  legend: string;
  value: T;
  options: readonly { value: T; label: string; words?: string }[];
  onChange: (value: T) => void;
}

/** A few options of which one is taken, each on its line with what it means. */
export function RadioLines<T extends string>({ legend, value, options, onChange }: Props<T>) {
  const id = useId();
  return (
    <ChoiceLines legend={legend}>
      {options.map((option) => (
        <ChoiceLine
          key={option.value}
          type="radio"
          name={id}
          label={option.label}
          words={option.words}
          checked={option.value === value}
          onChange={() => onChange(option.value)}
        />
      ))}
    </ChoiceLines>
  );
}
