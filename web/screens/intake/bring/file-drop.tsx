import { type DragEvent, useId, useState } from 'react';
import styles from './bring.module.css';
import { objectTo } from './brought-files.ts';

interface Props {
  hasFiles: boolean;
  isBusy: boolean;
  onFiles: (files: File[]) => void;
}

const carriesFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files');

/** Takes one or several files, dropped or chosen. */
export function FileDrop({ hasFiles, isBusy, onFiles }: Props) {
  const id = useId();
  const [isOver, setIsOver] = useState(false);
  const [objections, setObjections] = useState<string[]>([]);
  const take = (list: FileList | null) => {
    setIsOver(false);
    if (list === null || isBusy) return;
    const found = [...list].map((file) => ({ file, objection: objectTo(file) }));
    setObjections(found.flatMap(({ objection }) => objection ?? []));
    const good = found.filter(({ objection }) => objection === null).map(({ file }) => file);
    if (good.length > 0) onFiles(good);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button does the same by key
    <div
      className={styles.area}
      data-over={isOver}
      onDragOver={(event) => {
        if (!carriesFiles(event)) return;
        // Without this the browser would leave the page and open the file.
        event.preventDefault();
        event.dataTransfer.dropEffect = isBusy ? 'none' : 'copy';
        setIsOver(!isBusy);
      }}
      onDragLeave={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setIsOver(false);
      }}
      onDrop={(event) => {
        if (!carriesFiles(event)) return;
        event.preventDefault();
        take(event.dataTransfer.files);
      }}
    >
      <div className={styles.pick}>
        <label className={styles.button} data-disabled={isBusy}>
          {hasFiles ? 'Add files' : 'Choose files'}
          <input
            type="file"
            multiple
            disabled={isBusy}
            aria-describedby={`${id}-hint`}
            onChange={(event) => {
              take(event.target.files);
              // The same file may be chosen again after it was put right.
              event.target.value = '';
            }}
          />
        </label>
        <span>or drop them here</span>
      </div>
      <p id={`${id}-hint`} className={styles.soft}>
        An export with commas, semicolons or tabs, one row a moment or one row a value; a CAN log; or readings
        in our own form. Each also packed with gzip. Several at once where they are of one form. Nothing is
        stored before you say so.
      </p>
      {objections.length > 0 && (
        <div role="alert" className={styles.problem}>
          {objections.map((objection) => (
            <p key={objection}>{objection}</p>
          ))}
        </div>
      )}
    </div>
  );
}
