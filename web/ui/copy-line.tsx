import { useRef, useState } from 'react';
import { Button } from './button.tsx';
import styles from './copy-line.module.css';

/** Something to take along, with a button that copies it. */
export function CopyLine({ name, value }: { name: string; value: string }) {
  const input = useRef<HTMLInputElement>(null);
  const [told, setTold] = useState('');
  const copy = async () => {
    input.current?.select();
    setTold((await copyText(value)) ? 'Copied.' : 'Marked: copy it with the keys of your device.');
  };
  return (
    <div className={styles.line}>
      <input
        ref={input}
        className={styles.value}
        aria-label={name}
        value={value}
        readOnly
        onFocus={(event) => event.target.select()}
      />
      <Button onClick={() => void copy()}>Copy</Button>
      <span className={styles.told} role="status">
        {told}
      </span>
    </div>
  );
}

async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    // A page that came over plain HTTP has no clipboard of its own; the marked text can still be copied.
    return document.execCommand('copy');
  }
}
