import { type DragEvent, type ReactNode, useId, useState } from 'react';
import styles from './file-drop.module.css';

interface Props {
  /** on the button */
  label: string;
  /** beside it: dropping is the other way */
  orDrop: string;
  hint: string;
  /** kinds of files that are offered when choosing */
  accept?: string;
  isMultiple?: boolean;
  /** it then takes nothing */
  isBusy: boolean;
  /** for a thumb, whatever the screen */
  isLarge?: boolean;
  onFiles: (files: readonly File[]) => void;
  /** what came of it */
  children?: ReactNode;
}

const carriesFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files');

/** Takes files, dropped or chosen. */
export function FileDrop({
  label,
  orDrop,
  hint,
  accept,
  isMultiple = false,
  isBusy,
  isLarge = false,
  onFiles,
  children,
}: Props) {
  const id = useId();
  const [isOver, setIsOver] = useState(false);
  const take = (files: FileList | null) => {
    setIsOver(false);
    if (files !== null && files.length > 0 && !isBusy) onFiles([...files]);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button does the same by key
    <div
      className={styles.area}
      data-over={isOver}
      data-large={isLarge}
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
          {label}
          <input
            type="file"
            accept={accept}
            multiple={isMultiple}
            disabled={isBusy}
            aria-describedby={`${id}-hint`}
            onChange={(event) => {
              take(event.target.files);
              // The same file may be chosen again after it was put right.
              event.target.value = '';
            }}
          />
        </label>
        <span>{orDrop}</span>
      </div>
      <p id={`${id}-hint`} className={styles.hint}>
        {hint}
      </p>
      {children}
    </div>
  );
}
