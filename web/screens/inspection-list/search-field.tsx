import { useEffect, useId, useMemo, useRef, useState } from 'react';
import { useHotkey } from '#web/ui/use-hotkey.ts';
import styles from './list-filters.module.css';

const restMs = 250;

/** Asks for the list once typing rests; `/` leads here, Escape empties and leaves. */
export function SearchField({ value, onChange }: { value: string; onChange: (q: string) => void }) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const [text, setText] = useState(value);
  const [asked, setAsked] = useState(value);
  // The address changed from elsewhere, by Back or by clearing the filters.
  if (value !== asked) {
    setAsked(value);
    setText(value);
  }
  useEffect(() => () => clearTimeout(timer.current), []);

  const type = (next: string, waitMs: number) => {
    setText(next);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      setAsked(next.trim());
      onChange(next.trim());
    }, waitMs);
  };

  useHotkey(useMemo(() => ({ '/': () => input.current?.select() }), []));
  return (
    <div className={styles.field} data-grows="">
      <label htmlFor={id}>Unit number</label>
      <input
        id={id}
        ref={input}
        type="search"
        value={text}
        maxLength={100}
        placeholder="any part of it"
        autoComplete="off"
        spellCheck={false}
        enterKeyHint="search"
        aria-keyshortcuts="/"
        onChange={(event) => type(event.target.value, restMs)}
        onKeyDown={(event) => {
          if (event.key === 'Escape') {
            type('', 0);
            event.currentTarget.blur();
          }
        }}
      />
    </div>
  );
}
