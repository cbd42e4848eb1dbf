import type { LivesGroup } from '#server/contract/lives.ts';
import { lastSeen } from '#web/charts/survival-steps.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import { formatLifeNumber } from '#web/format/format-life.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { formatShape, sayShape } from '#web/format/say-shape.ts';
import type { LivesFigureProps } from '#web/screens/analysis/figure-props.ts';
import { ModesFigure } from '#web/screens/analysis/modes-figure.tsx';
import parts from '#web/ui/parts.module.css';
import { Cell, MissingCell, RowTable } from '#web/ui/row-table.tsx';
import head from '#web/ui/screen-head.module.css';
import { SelectField } from '#web/ui/select-field.tsx';
import { TableCsv } from '#web/ui/table-csv.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { listModeNumbers } from './list-table-numbers.ts';
import styles from './lives.module.css';

interface Props extends LivesFigureProps {
  /** name of the group that is shown */
  of: string | undefined;
  onOf: (name: string) => void;
}

/** What failed, and how much of it by which mileage. */
export function ModesPart({ groups, of, onOf, source, ...figure }: Props) {
  const withModes = groups.filter((group) => group.cumulative_incidence.length > 0);
  const shown =
    withModes.find(({ name }) => name === of) ?? withModes.toSorted((a, b) => b.events - a.events)[0];
  if (shown === undefined)
    return (
      <section className={parts.told}>
        <h2>What failed</h2>
        <p className={styles.soft}>
          No failure has its mode on record. Modes come with the teardown of a packet, or with POST
          /api/lives.
        </p>
      </section>
    );
  const isOne = groups.length === 1;
  const selection = isOne ? source.selection : `${shown.name}. ${source.selection ?? ''}`;
  return (
    <section className={parts.told}>
      <ModesFigure
        {...figure}
        group={shown}
        among={withModes}
        title={isOne ? 'What failed' : `What failed: ${shown.name}`}
        source={{ ...source, selection }}
      >
        {withModes.length > 1 && (
          <SelectField
            label="Modes of"
            value={shown.name}
            options={withModes.map(({ name }) => ({ value: name, label: name }))}
            onChange={onOf}
          />
        )}
      </ModesFigure>
      <ModesTable group={shown} />
    </section>
  );
}

function ModesTable({ group }: { group: LivesGroup }) {
  const units = useUnits();
  const last = lastSeen(group);
  if (group.weibull_by_mode.length === 0) return null;
  const isBeyond = group.weibull_by_mode.some(
    ({ weibull }) => weibull !== null && weibull.b10.estimate > last,
  );
  return (
    <>
      <div className={styles.partHead}>
        <h3>Each mode by itself</h3>
        <TableCsv name="modes" table={() => listModeNumbers(group, mileageAxis(units))} />
      </div>
      <RowTable label="Modes">
        <thead>
          <tr>
            <th scope="col">mode</th>
            <th scope="col">failed</th>
            <th scope="col">a tenth fail by, {units.distance}</th>
            <th scope="col" data-words>
              shape
            </th>
          </tr>
        </thead>
        <tbody>
          {group.weibull_by_mode.map(({ mode, events, weibull, declined }) => (
            <tr key={mode}>
              <th scope="row">{mode}</th>
              <Cell label="failed">{formatWhole(events)}</Cell>
              {weibull === null ? (
                <MissingCell columns={2}>
                  {declined === null ? noFigure : `${declined.reason}; needed: ${declined.needed}`}
                </MissingCell>
              ) : (
                <>
                  <Cell label={`a tenth fail by, ${units.distance}`}>
                    {formatLifeNumber(weibull.b10.estimate, units)}
                    {weibull.b10.estimate > last && <sup>*</sup>}{' '}
                    <small>
                      ({formatLifeNumber(weibull.b10.low, units)} to{' '}
                      {formatLifeNumber(weibull.b10.high, units)})
                    </small>
                  </Cell>
                  <Cell label="shape" isWords>
                    {formatShape(weibull.shape)},{' '}
                    {sayShape({ low: weibull.shape_low, high: weibull.shape_high })}
                  </Cell>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </RowTable>
      {isBeyond && <p className={head.reading}>* beyond what has been seen: the fit carried on.</p>}
    </>
  );
}
