import { type DragEvent, useId, useState } from 'react';
import area from '#web/screens/intake/bring/bring.module.css';

interface Props {
  hasFile: boolean;
  isBusy: boolean;
  onFile: (file: File) => void;
}

const MOST_BYTES = 16 * 1024 * 1024;
const carriesFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files');

/** Takes one file, dropped or chosen. */
export function SetUpDrop({ hasFile, isBusy, onFile }: Props) {
  const id = useId();
  const [isOver, setIsOver] = useState(false);
  const [objection, setObjection] = useState<string | null>(null);
  const take = (files: FileList | null) => {
    setIsOver(false);
    const [file] = files ?? [];
    if (file === undefined || isBusy) return;
    const isOne = files?.length === 1;
    if (!isOne) return setObjection('One file at a time, please.');
    if (file.size > MOST_BYTES)
      return setObjection(
        `${file.name} is over 16 MiB, which is the most. Nothing was changed; send it in parts.`,
      );
    setObjection(null);
    onFile(file);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button does the same by key
    <div
      className={area.area}
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
      <div className={area.pick}>
        <label className={area.button} data-disabled={isBusy}>
          {hasFile ? 'Choose another file' : 'Choose a file'}
          <input
            type="file"
            accept=".csv,.tsv,.txt,.gz,text/csv,text/plain"
            disabled={isBusy}
            aria-describedby={`${id}-hint`}
            onChange={(event) => {
              take(event.target.files);
              // The same file may be chosen again after it was put right.
              event.target.value = '';
            }}
          />
        </label>
        <span>or drop it here</span>
      </div>
      <p id={`${id}-hint`} className={area.soft}>
        CSV in UTF-8 with commas, semicolons or tabs. It is tried at once, and nothing is changed before you
        say so.
      </p>
      {objection !== null && (
        <p role="alert" className={area.problem}>
          {objection}
        </p>
      )}
    </div>
  );
}
