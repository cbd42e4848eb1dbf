import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { useDeleteSet, useWorkbenchSets } from '#web/api/use-workbench.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import parts from '#web/ui/parts.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useKeptFocus } from '#web/ui/use-kept-focus.ts';
import styles from './workbench.module.css';

/** The person's own kept tables. */
export function KeptTables({ onDeleted }: { onDeleted: (id: number) => void }) {
  const kept = useWorkbenchSets();
  const remove = useDeleteSet();
  const [asked, setAsked] = useState<{ id: number; name: string } | null>(null);
  const [gone, setGone] = useState<number | null>(null);
  const sets = kept.data?.sets ?? [];
  const title = useKeptFocus<HTMLHeadingElement>(gone);
  if (kept.isError) return <ProblemNote error={kept.error} onRetry={() => void kept.refetch()} />;
  if (sets.length === 0) return null;
  return (
    <section className={parts.part}>
      <h2 ref={title} tabIndex={-1}>
        Kept by you
      </h2>
      <ul className={styles.sets}>
        {sets.map((one) => (
          <li key={one.id}>
            <Link to="/analysis/workbench" search={{ set: one.id }}>
              {one.name}
            </Link>
            <span className={styles.soft}>
              {one.kind}, {formatUtcDate(one.stored_at)}
            </span>
            <Button
              kind="quiet"
              aria-label={`Delete ${one.name}`}
              disabled={remove.isPending}
              onClick={() => setAsked(one)}
            >
              Delete
            </Button>
          </li>
        ))}
      </ul>
      {remove.isError && <ProblemNote error={remove.error} />}
      {asked !== null && (
        <AskDialog
          title={`Delete '${asked.name}'?`}
          yes="Delete it"
          onNo={() => setAsked(null)}
          onYes={() => {
            const { id } = asked;
            setAsked(null);
            remove.mutate(id, {
              onSuccess: () => {
                setGone(id);
                onDeleted(id);
              },
            });
          }}
        >
          <p>Its text is stored nowhere else.</p>
        </AskDialog>
      )}
    </section>
  );
}
