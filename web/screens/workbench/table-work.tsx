import { useState } from 'react';
import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import type { WorkbenchKind, WorkbenchPart } from '#server/contract/workbench-words.ts';
import parts from '#web/ui/parts.module.css';
import { ColumnChoice } from './column-choice.tsx';
import { KeepForm } from './keep-form.tsx';
import { PreviewTable } from './preview-table.tsx';
import type { Source } from './reading/messages.ts';
import { Results } from './results.tsx';
import { RowsNote } from './rows-note.tsx';
import { sayTableShape } from './say-table.ts';
import { useTable } from './use-table.ts';
import styles from './workbench.module.css';
import { mergeChoice, type WorkbenchSearch } from './workbench-search.ts';

interface Props {
  source: Source;
  search: WorkbenchSearch;
  keptChoice: WorkbenchChoice | null;
  exampleKind: WorkbenchKind | undefined;
  canKeep: boolean;
  onChange: (patch: Partial<WorkbenchSearch>) => void;
  onKept: (name: string) => void;
}

const needed: Record<WorkbenchKind, { part: WorkbenchPart; words: string }> = {
  series: { part: 'y', words: 'Choose the column of the values, y.' },
  lives: { part: 'exit', words: 'Choose the column of the exits.' },
};

/** Tables by the order in which they were read here, so that no answer is shown for another. */
const numbers = new WeakMap<Source, number>();
let last = 0;
function numberOf(source: Source): number {
  const known = numbers.get(source);
  if (known !== undefined) return known;
  last++;
  numbers.set(source, last);
  return last;
}

/** From a text to its figures: first rows, columns, rows that cannot be used, results. */
export function TableWork(props: Props) {
  const { source, search, keptChoice, exampleKind, canKeep, onChange, onKept } = props;
  const kind = search.kind ?? keptChoice?.kind ?? exampleKind;
  const confidence = search.confidence ?? 0.95;
  const header = search.header === undefined ? keptChoice?.header : search.header === 'yes';
  const { read, preview, choice, rows } = useTable(
    source,
    { hasHeader: header, decimal: search.decimal ?? keptChoice?.decimal, kind },
    ({ guess, columns, hasHeader, decimal }) => {
      const base = keptChoice !== null && keptChoice.kind === guess.kind ? keptChoice : guess;
      return { ...mergeChoice(base, search, columns), header: hasHeader, decimal };
    },
  );
  const [accepted, setAccepted] = useState<string | null>(null);
  if (read.state === 'waiting') return <p role="status">reading {source.name}</p>;
  if (read.state === 'failed')
    return (
      <p className={styles.problem} role="alert">
        {read.words}
      </p>
    );
  if (preview === null || choice === null) return null;
  const lacking = choice.columns[needed[choice.kind].part] === undefined;
  const done = rows.state === 'done' && !lacking ? rows.value : null;
  const askKey = `${numberOf(source)} ${rows.key ?? ''} ${confidence}`;
  const isAccepted = accepted === askKey;
  return (
    <>
      <section className={parts.part}>
        <p>{sayTableShape(preview)}. The first rows:</p>
        <div className={styles.setup}>
          <PreviewTable preview={preview} />
          <ColumnChoice preview={preview} choice={choice} confidence={confidence} onChange={onChange} />
        </div>
        {lacking && <p className={styles.problem}>{needed[choice.kind].words}</p>}
        {rows.state === 'failed' && (
          <p className={styles.problem} role="alert">
            {rows.words}
          </p>
        )}
        {done !== null && (
          <RowsNote
            rows={done}
            isAccepted={isAccepted}
            isTurned={choice.event_turned}
            onAccept={() => setAccepted(askKey)}
            onChange={onChange}
          />
        )}
        {canKeep && <KeepForm text={preview.text} choice={choice} onKept={(_, name) => onKept(name)} />}
      </section>
      {done !== null && done.taken.good > 0 && (done.taken.bad === 0 || isAccepted) && (
        <Results
          askKey={askKey}
          taken={done.taken}
          choice={choice}
          confidence={confidence}
          name={source.name}
        />
      )}
    </>
  );
}
