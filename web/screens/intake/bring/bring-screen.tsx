import { getRouteApi } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import { useMappings } from '#web/api/use-mappings.ts';
import head from '#web/ui/screen-head.module.css';
import styles from './bring.module.css';
import type { BroughtFile, GivenToAll } from './brought-files.ts';
import { FileList } from './file-list.tsx';
import { FileWork } from './file-work.tsx';
import { FilesDrop } from './files-drop.tsx';
import { LeaveGuard } from './leave-guard.tsx';
import { Step } from './step.tsx';
import { useReading } from './use-reading.ts';
import { useSending } from './use-sending.ts';

const route = getRouteApi('/intake/bring');

/** Brings files of any form in, after a look at what they would come to. */
export function BringScreen() {
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const mappings = useMappings();
  const [files, setFiles] = useState<readonly BroughtFile[]>([]);
  const [shownId, setShownId] = useState(0);
  const [all, setAll] = useState<GivenToAll>({ zone: '', windowS: '' });
  const nextId = useRef(1);
  const bar = useRef<HTMLDivElement>(null);
  const reading = useReading(
    search.as ?? null,
    (name) => void navigate({ search: name === null ? {} : { as: name }, replace: true, resetScroll: false }),
  );
  const sending = useSending();
  useEffect(() => {
    document.title = 'Bring a file · Slipdrift';
  }, []);
  const shown = files.find(({ id }) => id === shownId) ?? files[0];
  const add = (chosen: readonly File[]) => {
    const brought = chosen.map((file) => ({ id: nextId.current++, file, vehicle: '', date: '', start: '' }));
    if (files.length === 0) reading.lookAgain();
    setFiles((before) => [...before, ...brought]);
  };
  const remove = (id: number) => {
    setFiles((before) => before.filter((one) => one.id !== id));
    sending.forget(id);
  };
  const change = (id: number, patch: Partial<BroughtFile>) =>
    setFiles((before) => before.map((one) => (one.id === id ? { ...one, ...patch } : one)));
  return (
    <div className={styles.page}>
      <header className={head.head}>
        <h1>Bring a file</h1>
        <p className={head.lead}>
          Readings out of an export of any maker, or a CAN log. You see what would be stored, and what would
          be refused and why, before anything is.
        </p>
      </header>
      <LeaveGuard isSending={sending.isBusy} />
      <Step number={1} title="Files">
        <FilesDrop hasFiles={files.length > 0} isBusy={sending.isBusy} onFiles={add} />
        {shown !== undefined && (
          <FileList
            files={files}
            shown={shown.id}
            isBusy={sending.isBusy}
            onShow={setShownId}
            onRemove={remove}
          />
        )}
      </Step>
      {shown !== undefined && (
        <FileWork
          key={shown.id}
          one={shown}
          files={files}
          all={all}
          reading={reading}
          stored={mappings.data ?? (mappings.isError ? [] : null)}
          sending={sending}
          bar={bar}
          onFile={change}
          onAll={setAll}
        />
      )}
    </div>
  );
}
