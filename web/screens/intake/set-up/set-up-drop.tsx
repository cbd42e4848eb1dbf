import { useState } from 'react';
import area from '#web/screens/intake/bring/bring.module.css';
import { FileDrop } from '#web/ui/file-drop.tsx';

interface Props {
  hasFile: boolean;
  isBusy: boolean;
  onFile: (file: File) => void;
}

const MOST_BYTES = 16 * 1024 * 1024;

/** Takes one set-up file. */
export function SetUpDrop({ hasFile, isBusy, onFile }: Props) {
  const [objection, setObjection] = useState<string | null>(null);
  const take = ([file, ...others]: readonly File[]) => {
    if (file === undefined) return;
    if (others.length > 0) return setObjection('One file at a time, please.');
    if (file.size > MOST_BYTES)
      return setObjection(
        `${file.name} is over 16 MiB, which is the most. Nothing was changed; send it in parts.`,
      );
    setObjection(null);
    onFile(file);
  };
  return (
    <FileDrop
      label={hasFile ? 'Choose another file' : 'Choose a file'}
      orDrop="or drop it here"
      hint="CSV in UTF-8 with commas, semicolons or tabs. It is tried at once, and nothing is changed before you say so."
      accept=".csv,.tsv,.txt,.gz,text/csv,text/plain"
      isBusy={isBusy}
      onFiles={take}
    >
      {objection !== null && (
        <p role="alert" className={area.problem}>
          {objection}
        </p>
      )}
    </FileDrop>
  );
}
