import { type ReactNode, useState } from 'react';
import { FileDrop } from '#web/ui/file-drop.tsx';
import { objectToFile } from './object-to-file.ts';
import styles from './trace-drop.module.css';

interface Props {
  onFile: (file: File) => void;
  /** what is going on, while it is; the area then takes nothing */
  progress?: string | null;
  /** what came of the last file, where it could not be taken */
  problem?: ReactNode;
}

const hint =
  'Recorded trace, CSV: time, throttle, speed, slip (or engine and turbine speed) and commanded duty; load, fluid temperature and gear help. 10 to 100 rows a second, up to 64 MiB.';

/** Takes the CSV of a recorded road test. */
export function TraceDrop({ onFile, progress = null, problem }: Props) {
  const [objection, setObjection] = useState<string | null>(null);
  const isBusy = progress !== null;
  const take = ([file, ...others]: readonly File[]) => {
    if (file === undefined) return;
    const found = others.length > 0 ? 'One recording at a time, please.' : objectToFile(file);
    setObjection(found);
    if (found === null) onFile(file);
  };
  return (
    <FileDrop
      label="Choose a recorded trace"
      orDrop="or drop it here"
      hint={hint}
      accept=".csv,.txt,.tsv,.gz,text/csv"
      isBusy={isBusy}
      isLarge
      onFiles={take}
    >
      <p role="status" className={styles.soft}>
        {progress}
      </p>
      {objection !== null && (
        <p role="alert" className={styles.problem}>
          {objection}
        </p>
      )}
      {objection === null && !isBusy && problem}
    </FileDrop>
  );
}
