import { useState } from 'react';
import { isDay } from '#web/format/days.ts';
import { TextField } from '#web/ui/text-field.tsx';

interface Props {
  label: string;
  value: string | undefined;
  min?: string | undefined;
  max?: string | undefined;
  onChange: (day: string | undefined) => void;
}

/** A day of the calendar; while its year is typed nothing is asked. */
export function DayField({ label, value = '', min, max, onChange }: Props) {
  const [text, setText] = useState(value);
  const [known, setKnown] = useState(value);
  // Changed from elsewhere, by Back or by clearing.
  if (value !== known) {
    setKnown(value);
    setText(value);
  }
  return (
    <TextField
      label={label}
      type="date"
      min={min}
      max={max}
      value={text}
      onChange={(day) => {
        setText(day);
        if (day !== '' && !isDay(day)) return;
        setKnown(day);
        onChange(day === '' ? undefined : day);
      }}
    />
  );
}
