import { type DragEvent, type ReactNode, useId, useState } from 'react';
import { objectToFile } from './object-to-file.ts';
import styles from './trace-drop.module.css';

interface Props {
  onFile: (file: File) => void;
  /** what is going on, while it is; the area then takes nothing */
  progress?: string | null;
  /** what came of the last file, where it could not be taken */
  problem?: ReactNode;
}

const hasFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files');

/** Takes the CSV of a recorded road test, dropped or chosen. */
export function TraceDrop({ onFile, progress = null, problem }: Props) {
  const id = useId();
  const [isOver, setIsOver] = useState(false);
  const [objection, setObjection] = useState<string | null>(null);
  const isBusy = progress !== null;
  const take = (file: File | undefined, more: number) => {
    setIsOver(false);
    if (file === undefined || isBusy) return;
    const found = more > 0 ? 'One recording at a time, please.' : objectToFile(file);
    setObjection(found);
    if (found === null) onFile(file);
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
        event.dataTransfer.dropEffect = isBusy ? 'none' : 'copy';
        setIsOver(!isBusy);
      }}
      onDragLeave={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setIsOver(false);
      }}
      onDrop={(event) => {
        if (!hasFiles(event)) return;
        event.preventDefault();
        take(event.dataTransfer.files[0], event.dataTransfer.files.length - 1);
      }}
    >
      <div className={styles.pick}>
        <label className={styles.button} data-disabled={isBusy}>
          Choose a recorded trace
          <input
            type="file"
            accept=".csv,.txt,.tsv,.gz,text/csv"
            disabled={isBusy}
            aria-describedby={`${id}-hint`}
            onChange={(event) => {
              const { files } = event.target;
              const [file, more] = [files?.[0], (files?.length ?? 1) - 1];
              // The same file may be chosen again after it was put right.
              event.target.value = '';
              take(file, more);
            }}
          />
        </label>
        <span>or drop it here</span>
      </div>
      <p id={`${id}-hint`} className={styles.soft}>
        Recorded trace, CSV: time, throttle, speed, slip (or engine and turbine speed) and commanded duty;
        load, fluid temperature and gear help. 10 to 100 rows a second, up to 64 MiB.
      </p>
      <p role="status" className={styles.soft}>
        {progress}
      </p>
      {objection !== null && (
        <p role="alert" className={styles.problem}>
          {objection}
        </p>
      )}
      {objection === null && !isBusy && problem}
    </div>
  );
}
