import { useState } from 'react';
import type { CanSummary, Look } from '#server/contract/looks.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { Button } from '#web/ui/button.tsx';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import styles from './bring.module.css';
import { doubtsAt } from './place-lack.ts';
import { sayLogSpan, sayWindows } from './say-look.ts';
import { Remarks } from './step.tsx';

const figures = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 1 });
const figure = (value: number | null): string =>
  value === null ? noFigure : figures.format(value).replace('-', '−');
const hex = (value: number, digits: number): string => value.toString(16).toUpperCase().padStart(digits, '0');
const mostGroups = 10;

/** What a CAN log held, before anything is made of it. */
export function CanPart({ look, can }: { look: Look; can: CanSummary }) {
  return (
    <>
      <p>
        {formatWhole(can.frames)} data frames with a 29-bit identifier in {formatWhole(can.lines)} lines.{' '}
        {sayLogSpan(can)} {sayWindows(can.windows)}
      </p>
      <Remarks doubts={doubtsAt(look, 'log')} />
      <Signals signals={can.signals} />
      <Vins vins={can.vins} />
      <Codes codes={can.codes} />
      <Groups groups={can.groups} />
      <LeftOut leftOut={can.left_out} />
    </>
  );
}

const Signals = ({ signals }: Pick<CanSummary, 'signals'>) =>
  signals.length === 0 ? null : (
    <>
      <h3>Signals</h3>
      <RowTable label="Signals in the log">
        <thead>
          <tr>
            <th scope="col">Signal</th>
            <th scope="col">From address</th>
            <th scope="col">Valid</th>
            <th scope="col">Not available</th>
            <th scope="col">Error</th>
            <th scope="col">Low to high</th>
          </tr>
        </thead>
        <tbody>
          {signals.map(
            ({ name, spn, pgn, source, sources, valid, not_available, error, low, high, unit }) => (
              <tr key={`${spn} ${pgn}`} className={valid === 0 ? styles.quiet : undefined}>
                <th scope="row">
                  {name}{' '}
                  <small>
                    SPN {spn}, PGN {pgn}
                  </small>
                </th>
                {valid === 0 ? (
                  <td colSpan={5} data-missing>
                    {sources.length === 0
                      ? 'not in the log'
                      : `never valid: ${formatWhole(not_available)} times not available, ${formatWhole(error)} times an error`}
                  </td>
                ) : (
                  <>
                    <Cell label="From address">
                      {source ?? noFigure}
                      {sources.length > 1 && <small> of {sources.join(', ')}</small>}
                    </Cell>
                    <Cell label="Valid">{formatWhole(valid)}</Cell>
                    <Cell label="Not available">{formatWhole(not_available)}</Cell>
                    <Cell label="Error">{formatWhole(error)}</Cell>
                    <Cell label="Low to high">
                      {figure(low)} to {figure(high)} {unit.replace('deg', '°')}
                    </Cell>
                  </>
                )}
              </tr>
            ),
          )}
        </tbody>
      </RowTable>
    </>
  );

const Vins = ({ vins }: Pick<CanSummary, 'vins'>) => (
  <p>
    {vins.length === 0
      ? 'No VIN was sent.'
      : vins.map(({ vin, source, warning }) => (
          <span key={`${vin} ${source}`} className={styles.line}>
            VIN <strong>{vin}</strong> from address {source}
            {warning === null ? '.' : ` ${warning}`}
          </span>
        ))}
  </p>
);

const Codes = ({ codes }: Pick<CanSummary, 'codes'>) => (
  <p>
    {codes.length === 0
      ? 'No trouble code was active.'
      : `Trouble codes: ${codes
          .map(({ code, source, seconds }) => `${code} from address ${source} over ${figure(seconds)}\u00a0s`)
          .join('; ')}.`}
  </p>
);

function Groups({ groups }: Pick<CanSummary, 'groups'>) {
  const [showsAll, setShowsAll] = useState(false);
  if (groups.length === 0) return null;
  const shown = showsAll ? groups : groups.slice(0, mostGroups);
  return (
    <>
      <h3>Frames by parameter group and source</h3>
      <RowTable label="Frames by parameter group and source">
        <thead>
          <tr>
            <th scope="col">Parameter group</th>
            <th scope="col">PGN</th>
            <th scope="col">Source address</th>
            <th scope="col">Frames</th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ pgn, source, name, frames }) => (
            <tr key={`${pgn} ${source}`}>
              <th scope="row">{name ?? 'not one that is read here'}</th>
              <Cell label="PGN">
                {pgn} <small>{hex(pgn, 4)}</small>
              </Cell>
              <Cell label="Source address">{source}</Cell>
              <Cell label="Frames">{formatWhole(frames)}</Cell>
            </tr>
          ))}
        </tbody>
      </RowTable>
      {groups.length > mostGroups && (
        <div>
          <Button kind="quiet" onClick={() => setShowsAll(!showsAll)}>
            {showsAll ? 'Show the most frequent' : `Show all ${formatWhole(groups.length)}`}
          </Button>
        </div>
      )}
    </>
  );
}

const LeftOut = ({ leftOut }: { leftOut: CanSummary['left_out'] }) =>
  leftOut.length === 0 ? null : (
    <>
      <h3>Left out of the log</h3>
      <RowTable label="Left out of the log">
        <thead>
          <tr>
            <th scope="col">Why</th>
            <th scope="col">Lines</th>
            <th scope="col">First</th>
            <th scope="col" data-words>
              In the file
            </th>
          </tr>
        </thead>
        <tbody>
          {leftOut.map(({ why, lines, first_line, raw }) => (
            <tr key={why}>
              <th scope="row">{why}</th>
              <Cell label="Lines">{formatWhole(lines)}</Cell>
              <Cell label="First">{formatWhole(first_line)}</Cell>
              <td className={styles.raw} data-label="In the file" data-words>
                <code>{raw.slice(0, 200)}</code>
              </td>
            </tr>
          ))}
        </tbody>
      </RowTable>
    </>
  );
