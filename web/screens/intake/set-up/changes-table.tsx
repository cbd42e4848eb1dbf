import { useState } from 'react';
import type { SetUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { actionWords, subjectWords } from '#web/screens/settings/changes/change-words.ts';
import { Button } from '#web/ui/button.tsx';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import { LineName } from './line-name.tsx';
import { listChangeRows } from './say-outcome.ts';
import styles from './set-up.module.css';

const FIRST_ROWS = 50;

/** Column by column what is, or would be, changed. */
export function ChangesTable({ reply }: { reply: SetUpFileReply }) {
  const [showsAll, setShowsAll] = useState(false);
  const rows = listChangeRows(reply.changes);
  const shown = showsAll ? rows : rows.slice(0, FIRST_ROWS);
  const left = reply.changes_total - reply.changes.length;
  return (
    <>
      <RowTable label="Changes">
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col" data-words>
              What
            </th>
            <th scope="col" data-words>
              Column
            </th>
            <th scope="col" data-words>
              Before
            </th>
            <th scope="col" data-words>
              After
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ key, line, change, field, before, after }) => (
            <tr key={key}>
              <th scope="row">
                <LineName line={line ?? null} none="follows" />
              </th>
              <Cell label="What" isWords>
                {subjectWords[change.subject]} {change.id}
              </Cell>
              <Cell label="Column" isWords>
                {field === null ? wordFor(change.action) : <code>{field}</code>}
              </Cell>
              <Cell label="Before" isWords>
                {before ?? noFigure}
              </Cell>
              <Cell label="After" isWords>
                {after ?? noFigure}
              </Cell>
            </tr>
          ))}
        </tbody>
      </RowTable>
      {rows.length > shown.length && (
        <div>
          <Button kind="quiet" onClick={() => setShowsAll(true)}>
            Show {formatWhole(rows.length - shown.length)} more
          </Button>
        </div>
      )}
      {left > 0 && (
        <p className={styles.soft}>And {formatWhole(left)} further changes, which are not listed.</p>
      )}
    </>
  );
}

const wordFor = (action: SetUpFileReply['changes'][number]['action']): string =>
  action === 'created' ? 'new' : actionWords[action];
