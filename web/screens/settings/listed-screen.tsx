import type { UseQueryResult } from '@tanstack/react-query';
import { type ReactNode, useEffect, useState } from 'react';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './settings.module.css';

interface Props<T> {
  title: string;
  /** one of them, as a word */
  one: string;
  lead: string;
  /** where there is none yet */
  none: string;
  listed: UseQueryResult<T[]>;
  table: (rows: readonly T[]) => ReactNode;
  form: (handlers: { onSaved: (id: string) => void; onLeave: () => void }) => ReactNode;
  onMade: (id: string) => void;
}

/** Settings that come as a list, with a form for a new one above it. */
export function ListedScreen<T>({ title, one, lead, none, listed, table, form, onMade }: Props<T>) {
  const { data, isPending, isError, error, refetch } = listed;
  const [isMaking, setMaking] = useState(false);
  useEffect(() => {
    document.title = `${title} · Slipdrift`;
  }, [title]);
  const onSaved = (id: string) => {
    setMaking(false);
    onMade(id);
  };
  return (
    <div className={styles.screen}>
      <header className={styles.head}>
        <div className={styles.words}>
          <h1>{title}</h1>
          <p>{lead}</p>
        </div>
        {!isMaking && (
          <Button kind="main" onClick={() => setMaking(true)}>
            New {one}
          </Button>
        )}
      </header>
      {isMaking && form({ onSaved, onLeave: () => setMaking(false) })}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the {title.toLowerCase()}</p>}
      {data?.length === 0 && <p className={styles.none}>{none}</p>}
      {data !== undefined && data.length > 0 && table(data)}
    </div>
  );
}
