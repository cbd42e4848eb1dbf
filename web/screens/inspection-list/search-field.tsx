import { useId, useMemo, useRef } from 'react';
import { useHotkey } from '#web/ui/use-hotkey.ts';
import { useSearchText } from '#web/ui/use-search-text.ts';
import styles from './list-filters.module.css';

/** Asks for the list once typing rests; `/` leads here, Escape empties and leaves. */
export function SearchField({ value, onChange }: { value: string; onChange: (q: string) => void }) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const { text, type } = useSearchText(value, onChange);
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
        onChange={(event) => type(event.target.value)}
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
