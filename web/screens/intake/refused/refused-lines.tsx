import type { KeptLine } from '#server/contract/intake.ts';
import { useChangeLineStates, useKeptLines } from '#web/api/use-intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import { saySender } from '#web/screens/intake/say-sender.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { LineEditor } from './line-editor.tsx';
import { markFault } from './mark-fault.ts';
import type { RefusedPatch, RefusedSearch } from './refused-search.ts';

interface Props {
  search: RefusedSearch;
  onChange: (patch: RefusedPatch) => void;
}

/** The lines of a fault, a delivery or a sender, to be put right one by one. */
export function RefusedLines({ search, onChange }: Props) {
  const { fault, receipt, sender, state = 'open', line } = search;
  const { data, isPending, isError, error, refetch, hasNextPage, fetchNextPage, isFetchingNextPage } =
    useKeptLines({
      state,
      ...(fault === undefined ? {} : { fault }),
      ...(receipt === undefined ? {} : { receipt }),
      ...(sender === undefined ? {} : { sender }),
    });
  if (isError && data === undefined) return <ProblemNote error={error} onRetry={() => void refetch()} />;
  if (isPending) return <p role="status">Loading the lines</p>;
  const rows = data?.pages.flatMap((page) => page.rows) ?? [];
  const total = data?.pages[0]?.total ?? 0;
  const next = (after: KeptLine) => rows[rows.findIndex(({ id }) => id === after.id) + 1]?.id;
  return (
    <div className={settingsStyles.stack}>
      <p className={settingsStyles.small} role="status">
        {total === 0
          ? 'No line is left here.'
          : `${formatWhole(rows.length)} of ${formatWhole(total)} lines shown`}
      </p>
      {rows.length > 0 && (
        <ol className={styles.lines} aria-label="Lines">
          {rows.map((row) => (
            <li key={row.id} className={styles.line}>
              <LineHead row={row} showsFault={fault === undefined} />
              {row.id === line && state === 'open' ? (
                <LineEditor
                  line={row}
                  onSettled={() => onChange({ line: next(row) })}
                  onLeave={() => onChange({ line: undefined })}
                />
              ) : (
                <Raw row={row} onEdit={() => onChange({ line: row.id })} />
              )}
            </li>
          ))}
        </ol>
      )}
      {hasNextPage && (
        <p>
          <Button disabled={isFetchingNextPage} onClick={() => void fetchNextPage()}>
            More lines
          </Button>
        </p>
      )}
    </div>
  );
}

function LineHead({ row, showsFault }: { row: KeptLine; showsFault: boolean }) {
  const others = row.errors.slice(showsFault ? 0 : 1);
  return (
    <>
      <p className={styles.lineHead}>
        <span>
          Line {formatWhole(row.line)}
          {row.file === null ? '' : ` of ${row.file}`}, from {saySender(row.sender)}
        </span>
        <small className={settingsStyles.small}>{formatMoment(row.at)}</small>
      </p>
      {others.length > 0 && (
        <p className={settingsStyles.small}>
          {others.map(({ field, message }) => `${field} ${message}`.trim()).join('; ')}
        </p>
      )}
    </>
  );
}

function Raw({ row, onEdit }: { row: KeptLine; onEdit: () => void }) {
  const { before, marked, after } = markFault(row.raw, row.errors[0]?.field ?? '', row.reading);
  const back = useChangeLineStates();
  return (
    <>
      <pre className={styles.raw}>
        {before}
        {marked !== '' && <mark>{marked}</mark>}
        {after}
      </pre>
      {row.state === 'open' ? (
        <p>
          <Button onClick={onEdit}>
            Correct<span className="only-spoken"> line {row.line}</span>
          </Button>
        </p>
      ) : (
        <p className={settingsStyles.small}>
          {row.state === 'let_in' ? 'Let in' : 'Laid aside'} by {row.settled_by} on{' '}
          {formatMoment(row.settled_at)}.{' '}
          {row.state === 'laid_aside' && (
            <Button
              kind="quiet"
              disabled={back.isPending}
              onClick={() => back.mutate({ ids: [row.id], state: 'open' })}
            >
              Open it again
            </Button>
          )}
        </p>
      )}
    </>
  );
}
