import { type ReactNode, useEffect, useId, useRef } from 'react';
import styles from './ask-dialog.module.css';
import { Button } from './button.tsx';

interface Props {
  title: string;
  children: ReactNode;
  /** What the button says that does it. */
  yes: string;
  no?: string;
  kind?: 'main' | 'grave';
  onYes: () => void;
  onNo: () => void;
}

/** Asks once, in words, before something that is not easily taken back. Stands as long as it is rendered. */
export function AskDialog({ title, children, yes, no = 'Leave it', kind = 'grave', onYes, onNo }: Props) {
  const id = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const shown = dialog.current;
    const before = document.activeElement;
    shown?.showModal();
    return () => {
      shown?.close();
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      className={styles.dialog}
      aria-labelledby={`${id}-title`}
      aria-describedby={`${id}-words`}
      onCancel={(event) => {
        event.preventDefault();
        onNo();
      }}
    >
      <h2 id={`${id}-title`}>{title}</h2>
      <div className={styles.words} id={`${id}-words`}>
        {children}
      </div>
      <div className={styles.buttons}>
        <Button onClick={onNo}>{no}</Button>
        <Button kind={kind} onClick={onYes}>
          {yes}
        </Button>
      </div>
    </dialog>
  );
}
