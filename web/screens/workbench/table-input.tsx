import { type ClipboardEvent, type DragEvent, useId, useState } from 'react';
import { Button } from '#web/ui/button.tsx';
import type { Source } from './reading/messages.ts';
import { tooLarge } from './reading/read-table.ts';
import { mostBytes, mostRows } from './reading/table.ts';
import styles from './workbench.module.css';

interface Props {
  /** what stands in the field to begin with, where a text is changed */
  text: string;
  onSource: (source: Source) => void;
}

const whole = new Intl.NumberFormat('en-GB');
const hasFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files');

/** Takes a table: pasted, typed, dropped or chosen. What is too large is refused by its size, before it is read. */
export function TableInput({ text, onSource }: Props) {
  const id = useId();
  const [typed, setTyped] = useState(text);
  const [isOver, setIsOver] = useState(false);
  const [objection, setObjection] = useState<string | null>(null);
  const takeText = (pasted: string) => {
    if (pasted.length > mostBytes) return setObjection(tooLarge(pasted.length).message);
    setObjection(null);
    onSource({ name: 'pasted table', text: pasted });
  };
  const takeFile = (file: File | undefined, more: number) => {
    setIsOver(false);
    if (file === undefined) return;
    if (more > 0) return setObjection('One file at a time, please.');
    if (file.size > mostBytes) return setObjection(tooLarge(file.size).message);
    setObjection(null);
    onSource({ name: file.name, file });
  };
  const onPaste = (event: ClipboardEvent) => {
    // Into a text that is being changed it goes as anywhere else.
    if (typed !== '') return;
    const pasted = event.clipboardData.getData('text/plain');
    if (pasted.trim() === '') return;
    event.preventDefault();
    takeText(pasted);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button does the same by key
    <div
      className={styles.area}
      data-over={isOver}
      onDragOver={(event) => {
        if (!hasFiles(event)) return;
        // Without this the browser would leave the page and open the file.
        event.preventDefault();
        event.dataTransfer.dropEffect = 'copy';
        setIsOver(true);
      }}
      onDragLeave={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setIsOver(false);
      }}
      onDrop={(event) => {
        if (!hasFiles(event)) return;
        event.preventDefault();
        takeFile(event.dataTransfer.files[0], event.dataTransfer.files.length - 1);
      }}
    >
      <label className={styles.label} htmlFor={id}>
        Paste a table, or drop a file here
      </label>
      <textarea
        id={id}
        className={styles.text}
        rows={7}
        spellCheck={false}
        autoComplete="off"
        value={typed}
        aria-describedby={`${id}-hint`}
        onPaste={onPaste}
        onChange={(event) => setTyped(event.target.value)}
      />
      <p className={styles.soft} id={`${id}-hint`}>
        CSV with commas, semicolons or tabs, or cells copied from a sheet; up to {whole.format(mostRows)} rows
        and {mostBytes / 1024 / 1024} MiB. The server reckons its figures, and stores nothing unless you keep
        the table.
      </p>
      <div className={styles.buttons}>
        <Button
          kind={typed === '' ? 'plain' : 'main'}
          disabled={typed.trim() === ''}
          onClick={() => takeText(typed)}
        >
          Read the text
        </Button>
        <label className={styles.file}>
          Choose a file
          <input
            type="file"
            accept=".csv,.tsv,.txt,text/csv,text/plain,text/tab-separated-values"
            onChange={(event) => {
              takeFile(event.target.files?.[0], 0);
              event.target.value = '';
            }}
          />
        </label>
      </div>
      {objection !== null && (
        <p className={styles.problem} role="alert">
          {objection}
        </p>
      )}
    </div>
  );
}
