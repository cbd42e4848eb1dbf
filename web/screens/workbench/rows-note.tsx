import { Button } from '#web/ui/button.tsx';
import { useKeptFocus } from '#web/ui/use-kept-focus.ts';
import type { TakenRows } from './reading/messages.ts';
import styles from './workbench.module.css';
import type { WorkbenchSearch } from './workbench-search.ts';

interface Props {
  rows: TakenRows;
  isAccepted: boolean;
  isTurned: boolean;
  onAccept: () => void;
  onChange: (patch: Partial<WorkbenchSearch>) => void;
}

const whole = new Intl.NumberFormat('en-GB');
const count = (n: number): string => `${whole.format(n)} ${n === 1 ? 'row' : 'rows'}`;

/** How many rows can be used; those that cannot, with line and reason, are left out only where that is said. */
export function RowsNote({ rows: { taken, eventWords }, isAccepted, isTurned, onAccept, onChange }: Props) {
  const lacking = useKeptFocus<HTMLParagraphElement>(isAccepted);
  return (
    <div className={styles.rows}>
      {eventWords !== null && (
        <p>
          {sayWords(eventWords)}{' '}
          <Button kind="quiet" onClick={() => onChange({ turned: isTurned ? 'no' : 'yes' })}>
            Turn it round
          </Button>
        </p>
      )}
      {taken.bad === 0 ? (
        <p>{taken.good === 1 ? 'The one row' : `All ${count(taken.good)}`} can be used.</p>
      ) : (
        <>
          <p ref={lacking} tabIndex={-1}>
            <strong>{count(taken.bad)} cannot be used</strong>, {count(taken.good)} can.
            {isAccepted && ' The figures below leave them out.'}
          </p>
          <ul className={styles.faults}>
            {taken.faults.map(({ line, column, reason }) => (
              <li key={`${line} ${column}`}>
                Line {whole.format(line)}: {column} {reason}
              </li>
            ))}
            {taken.bad > taken.faults.length && <li>and {count(taken.bad - taken.faults.length)} more</li>}
          </ul>
          {!isAccepted && taken.good > 0 && (
            <div>
              <Button kind="main" onClick={onAccept}>
                Go on with the {whole.format(taken.good)} good {taken.good === 1 ? 'row' : 'rows'}
              </Button>
            </div>
          )}
        </>
      )}
    </div>
  );
}

const list = (words: readonly string[]): string => words.map((word) => `'${word}'`).join(', ');

function sayWords({ failed, running }: { failed: string[]; running: string[] }): string {
  const told = [
    ...(failed.length === 0 ? [] : [`${list(failed)} is taken as failed`]),
    ...(running.length === 0
      ? []
      : [`${list(running)} ${failed.length === 0 ? 'is taken ' : ''}as running on`]),
  ];
  return told.length === 0 ? 'No word of the column says what failed.' : `${told.join(', ')}.`;
}
