import { useState } from 'react';
import { FileDrop } from '#web/ui/file-drop.tsx';
import styles from './bring.module.css';
import { objectTo } from './brought-files.ts';

interface Props {
  hasFiles: boolean;
  isBusy: boolean;
  onFiles: (files: File[]) => void;
}

const hint =
  'An export with commas, semicolons or tabs, one row a moment or one row a value; a CAN log; or readings in our own form. Each also packed with gzip. Several at once where they are of one form. Nothing is stored before you say so.';

/** Takes one or several files, but for those that cannot be read at all. */
export function FilesDrop({ hasFiles, isBusy, onFiles }: Props) {
  const [objections, setObjections] = useState<string[]>([]);
  const take = (files: readonly File[]) => {
    const found = files.map((file) => ({ file, objection: objectTo(file) }));
    setObjections(found.flatMap(({ objection }) => objection ?? []));
    const good = found.filter(({ objection }) => objection === null).map(({ file }) => file);
    if (good.length > 0) onFiles(good);
  };
  return (
    <FileDrop
      label={hasFiles ? 'Add files' : 'Choose files'}
      orDrop="or drop them here"
      hint={hint}
      isMultiple
      isBusy={isBusy}
      onFiles={take}
    >
      {objections.length > 0 && (
        <div role="alert" className={styles.problem}>
          {objections.map((objection) => (
            <p key={objection}>{objection}</p>
          ))}
        </div>
      )}
    </FileDrop>
  );
}
