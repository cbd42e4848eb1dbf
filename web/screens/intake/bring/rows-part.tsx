import { useState } from 'react';
import type { Look, SeenReading } from '#server/contract/looks.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { Button } from '#web/ui/button.tsx';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import { useMedia } from '#web/ui/use-media.ts';
import styles from './bring.module.css';
import { formatThere, formatUtc } from './say-look.ts';
import { listShownFields } from './shown-fields.ts';

interface Props {
  look: Look;
  /** in which clocks of the file stood, where the times say none */
  zone: string | null;
}

/** The first rows as they would be stored, each beside its raw line; what would be refused is marked by a word. */
export function RowsPart({ look, zone }: Props) {
  const isNarrow = useMedia('(max-width: 47.99rem)');
  const [showsAll, setShowsAll] = useState(false);
  if (look.rows.length === 0) return null;
  const isFolded = isNarrow && !showsAll && look.rows.length > fewRows;
  const shown = isFolded ? look.rows.slice(0, fewRows) : look.rows;
  // A window of a log is no line of it: its raw form says what its row says.
  const showsRaw = look.format !== 'can';
  const fields = listShownFields(look.rows.flatMap(({ reading }) => reading ?? []));
  return (
    <>
      <RowTable label="First rows as they would be read">
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col" data-words>
              Vehicle
            </th>
            <th scope="col" data-words>
              Time, UTC
            </th>
            {fields.map(({ field, head }) => (
              <th key={field} scope="col">
                {head}
              </th>
            ))}
            {showsRaw && (
              <th scope="col" data-words>
                In the file
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {shown.map(({ line, raw, reading, errors }) => (
            <tr key={line} data-refused={reading === null || undefined}>
              <th scope="row">
                <span className={styles.lineWord}>Line </span>
                {formatWhole(line)}
              </th>
              {reading === null ? (
                <td colSpan={fields.length + 2} data-missing className={styles.refused}>
                  <strong>Refused:</strong>{' '}
                  {errors.map(({ field, message }) => `${field} ${message}`.trim()).join('; ')}
                </td>
              ) : (
                <>
                  <Cell label="Vehicle" isWords>
                    {reading.vehicle}
                  </Cell>
                  <Cell label="Time, UTC" isWords>
                    <Moment at={reading.at} zone={zone} />
                  </Cell>
                  {fields.map(({ field, head, show }) => (
                    <Cell key={field} label={head}>
                      {show(reading)}
                    </Cell>
                  ))}
                </>
              )}
              {showsRaw && (
                <td className={styles.raw} data-label="In the file" data-words>
                  <code>{shorten(raw)}</code>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </RowTable>
      {isFolded && (
        <div>
          <Button kind="quiet" onClick={() => setShowsAll(true)}>
            Show all {look.rows.length} rows
          </Button>
        </div>
      )}
    </>
  );
}

/** On a phone each row is a block: so many at first. */
const fewRows = 5;
const longest = 400;
const shorten = (raw: string): string =>
  (raw.length > longest ? `${raw.slice(0, longest)}…` : raw).replaceAll('\t', ' → ');

function Moment({ at, zone }: { at: SeenReading['at']; zone: string | null }) {
  const there = formatThere(at, zone);
  return (
    <>
      <span className={styles.moment}>{formatUtc(at)}</span>
      {there !== null && <small className={styles.there}>there {there}</small>}
    </>
  );
}

/** What would be refused, by its fault, most first. */
export function FaultsPart({ faults }: Pick<Look, 'faults'>) {
  if (faults.length === 0) return null;
  return (
    <>
      <h3>What would be refused</h3>
      <RowTable label="Faults">
        <thead>
          <tr>
            <th scope="col">Fault</th>
            <th scope="col">Rows</th>
            <th scope="col">First on line</th>
            <th scope="col" data-words>
              In the file
            </th>
          </tr>
        </thead>
        <tbody>
          {faults.map(({ field, message, lines, line, raw }) => (
            <tr key={`${field} ${message}`}>
              <th scope="row">{`${field} ${message}`.trim()}</th>
              <Cell label="Rows">{formatWhole(lines)}</Cell>
              <Cell label="First on line">{line > 0 ? formatWhole(line) : noFigure}</Cell>
              <td className={styles.raw} data-label="In the file" data-words>
                <code>{shorten(raw)}</code>
              </td>
            </tr>
          ))}
        </tbody>
      </RowTable>
      <p className={styles.soft}>
        Refused lines are kept as they came, and can be put right and let in afterwards.
      </p>
    </>
  );
}
