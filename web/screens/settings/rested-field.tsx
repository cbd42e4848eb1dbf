import { useEffect, useRef, useState } from 'react';
import { TextField } from '#web/ui/text-field.tsx';

interface Props {
  label: string;
  placeholder: string;
  value: string;
  onChange: (text: string) => void;
}

const restMs = 250;

/** A search that asks once typing rests. */
export function RestedField({ label, placeholder, value, onChange }: Props) {
  const [text, setText] = useState(value);
  const [asked, setAsked] = useState(value);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  // The address changed from elsewhere, by Back or by showing all.
  if (value !== asked) {
    setAsked(value);
    setText(value);
  }
  useEffect(() => () => clearTimeout(timer.current), []);
  const type = (next: string) => {
    setText(next);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      setAsked(next.trim());
      onChange(next.trim());
    }, restMs);
  };
  return (
    <TextField
      label={label}
      type="search"
      placeholder={placeholder}
      autoComplete="off"
      maxLength={100}
      value={text}
      onChange={type}
    />
  );
}
