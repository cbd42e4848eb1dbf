import { getRouteApi } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import parts from '#web/ui/parts.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useKeptFocus } from '#web/ui/use-kept-focus.ts';
import { KeptTables } from './kept-tables.tsx';
import { LeaveGuard } from './leave-guard.tsx';
import type { Source } from './reading/messages.ts';
import { ExampleList, SourceHead } from './source-parts.tsx';
import { TableInput } from './table-input.tsx';
import { TableWork } from './table-work.tsx';
import { useSource } from './use-source.ts';
import styles from './workbench.module.css';
import type { WorkbenchSearch } from './workbench-search.ts';

const route = getRouteApi('/analysis/workbench');
/** A longer text in a field makes the page slow. */
const mostEdited = 200_000;

/** The same statistics on a table of one's own. */
export function WorkbenchScreen() {
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const found = useSource(search);
  const { source, own, setOwn, isOwn } = found;
  const [keptOwn, setKeptOwn] = useState<Source | null>(null);
  const [edits, setEdits] = useState<string | null>(null);
  const [said, say] = useState('');
  useEffect(() => {
    document.title = 'Workbench · Slipdrift';
  }, []);
  const change = (patch: Partial<WorkbenchSearch>) =>
    void navigate({ search: (old) => ({ ...old, ...patch }), replace: true, resetScroll: false });
  const take = (taken: Source) => {
    setEdits(null);
    say('');
    setOwn(taken);
    if (!isOwn) void navigate({ search: ({ example: _, set: __, ...columns }) => columns });
  };
  const startAnew = () => {
    setEdits(null);
    if (isOwn) setOwn(null);
    void navigate({ search: {} });
  };
  const showsInput = edits !== null || (source === null && isOwn);
  const isKept = own !== null && own === keptOwn;
  const title = useKeptFocus<HTMLHeadingElement>(showsInput ? 'input' : isKept ? 'kept' : source);
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <h1>Workbench</h1>
        <p className={styles.lead}>
          The statistics of the fleet on a table of your own: a series with its trend, or lives with their
          survival.
        </p>
      </header>
      <LeaveGuard isUnkept={own !== null && !isKept} />
      <p role="status" className={said === '' ? styles.hidden : styles.soft}>
        {said}
      </p>
      {found.kept?.isError && <ProblemNote error={found.kept.error} />}
      {found.failed !== null && <ProblemNote error={found.failed} />}
      {showsInput ? (
        <TableInput key={edits ?? ''} text={edits ?? ''} onSource={take} />
      ) : (
        source !== null && (
          <>
            <SourceHead
              name={source.name}
              title={title}
              example={found.example}
              onEdit={
                'text' in source && source.text.length <= mostEdited ? () => setEdits(source.text) : null
              }
              onAnother={startAnew}
            />
            <TableWork
              source={source}
              search={search}
              keptChoice={found.kept?.data?.choice ?? null}
              exampleKind={found.example?.kind}
              canKeep={isOwn && !isKept}
              onChange={change}
              onKept={(name) => {
                setKeptOwn(own);
                say(`Kept as ${name}.`);
              }}
            />
          </>
        )
      )}
      {source === null && !isOwn && found.failed === null && !found.kept?.isError && (
        <p role="status">reading</p>
      )}
      <div className={parts.columns}>
        <ExampleList />
        <KeptTables onDeleted={(id) => id === search.set && startAnew()} />
      </div>
    </div>
  );
}
