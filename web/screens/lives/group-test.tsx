import type { FleetLivesReply, LivesGroup } from '#server/contract/lives.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { sayChance } from '#web/format/say-chance.ts';
import parts from '#web/ui/parts.module.css';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import head from '#web/ui/screen-head.module.css';
import { TableCsv } from '#web/ui/table-csv.tsx';
import { listTestNumbers } from './list-table-numbers.ts';
import styles from './lives.module.css';
import { sayCaution } from './say-lives.ts';

interface Props {
  reply: FleetLivesReply;
  /** in the order of the reply, with names for people */
  groups: readonly LivesGroup[];
}

/** Whether the groups differ by more than chance would, and where. */
export function GroupTest({ reply, groups }: Props) {
  const { logrank, declined } = reply;
  if (groups.length < 2) return null;
  return (
    <section className={parts.told}>
      <div className={styles.partHead}>
        <h2>Do the groups differ?</h2>
        {logrank !== null && <TableCsv name="group test" table={() => listTestNumbers(logrank, groups)} />}
      </div>
      {logrank === null ? (
        <p className={styles.soft}>
          {declined.logrank === undefined
            ? 'No test was made.'
            : `Cannot be told: ${declined.logrank.reason}. Needed: ${declined.logrank.needed}; there: ${declined.logrank.got}.`}
        </p>
      ) : (
        <>
          <p>
            If all groups were alike, chance alone would show such differences {sayChance(logrank.p)}{' '}
            <span className={styles.soft}>
              (log-rank test, chi-square {formatTenths(logrank.chisq)}, {logrank.df}{' '}
              {logrank.df === 1 ? 'degree' : 'degrees'} of freedom, p {sayP(logrank.p)}).
            </span>
          </p>
          <RowTable label="Failures against what would be expected">
            <thead>
              <tr>
                <th scope="col">group</th>
                <th scope="col">failed</th>
                <th scope="col">expected if all were alike</th>
                <th scope="col">times as often</th>
              </tr>
            </thead>
            <tbody>
              {logrank.groups.map(({ name, observed, expected }, i) => (
                <tr key={name}>
                  <th scope="row">{groups[i]?.name ?? name}</th>
                  <Cell label="failed">{formatWhole(observed)}</Cell>
                  <Cell label="expected if all were alike">{formatTenths(expected)}</Cell>
                  <Cell label="times as often">{expected > 0 ? (observed / expected).toFixed(2) : '–'}</Cell>
                </tr>
              ))}
            </tbody>
          </RowTable>
          <p className={head.reading}>{sayCaution(reply)}</p>
        </>
      )}
    </section>
  );
}

const sayP = (p: number): string => (p < 0.0001 ? 'below 0.0001' : p.toPrecision(2));
