import { Link } from '@tanstack/react-router';
import type { ListedReceipt } from '#server/contract/intake.ts';
import type { Receipt } from '#server/contract/receipts.ts';
import { useReceipt } from '#web/api/use-intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';

/** What became of one delivery, how it was read, and the first of its refused lines. */
export function OpenedDelivery({ listed }: { listed: ListedReceipt }) {
  const { data, isError, error, refetch } = useReceipt(listed.receipt);
  if (isError) return <ProblemNote error={error} onRetry={() => void refetch()} />;
  if (data === undefined) return <p role="status">Loading the delivery</p>;
  return (
    <div className={settingsStyles.sheet}>
      <dl className={styles.facts}>
        {listFacts(data, listed).map(([name, words]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      {data.refused_lines_total > 0 && (
        <div className={settingsStyles.stack}>
          <h3>Refused lines</h3>
          <ul className={styles.lines}>
            {data.refused_lines.map(({ line, raw, errors }) => (
              <li key={`${line} ${raw}`} className={styles.line}>
                <p>
                  Line {formatWhole(line)}:{' '}
                  {errors.map(({ field, message }) => `${field} ${message}`.trim()).join('; ')}
                </p>
                <pre className={styles.raw}>{raw}</pre>
              </li>
            ))}
          </ul>
          <p>
            <Link to="/intake/refused" search={{ receipt: data.receipt }}>
              {data.refused_open === 0
                ? `All ${formatWhole(data.refused_lines_total)} refused lines`
                : `${formatWhole(data.refused_open)} still open of ${formatWhole(data.refused_lines_total)} refused lines`}
            </Link>
          </p>
        </div>
      )}
    </div>
  );
}

function listFacts(receipt: Receipt, { state }: ListedReceipt): [string, string][] {
  const { duplicate, conflicting } = receipt;
  const ends = {
    whole: `whole, at ${formatMoment(receipt.ended_at)}`,
    broke_off: 'broke off: the lines before are stored',
    not_ended: 'has not ended: it is coming in, or its sender went away',
  };
  return [
    ['ended', receipt.ended_at === null && state === 'whole' ? 'whole' : ends[state]],
    [
      'lines',
      `${formatWhole(receipt.received)} received: ${formatWhole(receipt.stored)} stored, ${formatWhole(duplicate)} there already, ${formatWhole(receipt.refused)} refused`,
    ],
    ...(conflicting === 0
      ? []
      : ([['of those there already', `${formatWhole(conflicting)} with other figures; the first stays`]] as [
          string,
          string,
        ][])),
    ['read with', sayReading(receipt)],
    ['receipt', receipt.receipt],
  ];
}

function sayReading({ read_with: way }: Receipt): string {
  if (way === null) return 'that was not kept';
  if (way.form === 'json') return 'the fields as JSON names them';
  if (way.form === 'csv')
    return `our own columns: ${way.columns.filter((column) => column !== null).join(', ')}`;
  const taken = way.mapping.columns.map(
    ({ column, takes, unit }) => `${column} as ${takes}${unit === null ? '' : ` in ${unit}`}`,
  );
  return `a mapping: ${taken.join('; ')}`;
}
