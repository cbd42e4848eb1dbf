import { useEffect, useRef, useState } from 'react';

const restMs = 250;

/** What stands in a search field, and how it is typed into: it asks once typing rests. */
export function useSearchText(value: string, onChange: (text: string) => void) {
  const [text, setText] = useState(value);
  const [asked, setAsked] = useState(value);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  // The address changed from elsewhere, by Back or by clearing the filters.
  if (value !== asked) {
    setAsked(value);
    setText(value);
  }
  useEffect(() => () => clearTimeout(timer.current), []);
  const type = (next: string, waitMs = restMs) => {
    setText(next);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      setAsked(next.trim());
      onChange(next.trim());
    }, waitMs);
  };
  return { text, type };
}
