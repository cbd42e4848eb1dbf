import type { Bounded, LivesGroup } from '#server/contract/lives.ts';
import type { LifeFitKind } from '#web/charts/life-paper.ts';
import { lastSeen } from '#web/charts/survival-steps.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import { formatLifeNumber } from '#web/format/format-life.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { formatShape, sayShape } from '#web/format/say-shape.ts';
import parts from '#web/ui/parts.module.css';
import { Cell, MissingCell, RowTable } from '#web/ui/row-table.tsx';
import head from '#web/ui/screen-head.module.css';
import { TableCsv } from '#web/ui/table-csv.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { listGroupNumbers } from './list-group-numbers.ts';
import styles from './lives.module.css';

interface Props {
  groups: readonly LivesGroup[];
  kind: LifeFitKind;
}

/** Each group with what was seen of it, and the mileages by which a tenth and a half fail. */
export function GroupsTable({ groups, kind }: Props) {
  const units = useUnits();
  const axis = mileageAxis(units);
  const spread = kind === 'weibull' ? 'shape' : 'spread of the logarithm';
  const isBeyond = (group: LivesGroup, x: number) => x > lastSeen(group);
  const beyond = groups.some((group) =>
    [group[kind]?.b10, group[kind]?.b50].some((b) => b && isBeyond(group, b.estimate)),
  );
  const cell = (group: LivesGroup, bounds: Bounded | undefined) => {
    if (bounds === undefined) return noFigure;
    const [low, high] = [bounds.low, bounds.high].map((x) => formatLifeNumber(x, units));
    return (
      <>
        {formatLifeNumber(bounds.estimate, units)}
        {isBeyond(group, bounds.estimate) && <sup>*</sup>}{' '}
        <small>
          ({low} to {high})
        </small>
      </>
    );
  };
  return (
    <section className={parts.told}>
      <div className={styles.partHead}>
        <h2>When a tenth and a half have failed</h2>
        <TableCsv name="lives by group" table={() => listGroupNumbers(groups, axis)} />
      </div>
      <RowTable label="Groups">
        <thead>
          <tr>
            <th scope="col">group</th>
            <th scope="col">converters</th>
            <th scope="col">failed</th>
            <th scope="col">watched, thousand {units.distance}</th>
            <th scope="col">B10, {units.distance}</th>
            <th scope="col">B50, {units.distance}</th>
            <th scope="col" data-words>
              {spread}
            </th>
          </tr>
        </thead>
        <tbody>
          {groups.map((group) => (
            <tr key={group.name}>
              <th scope="row">{group.name}</th>
              <Cell label="converters">{formatWhole(group.n)}</Cell>
              <Cell label="failed">{formatWhole(group.events)}</Cell>
              <Cell label={`watched, thousand ${units.distance}`}>
                {formatWhole(group.exposed / axis.one / 1000)}
              </Cell>
              {group[kind] === null ? (
                <MissingCell columns={3}>{sayMissing(group, kind)}</MissingCell>
              ) : (
                <>
                  <Cell label={`B10, ${units.distance}`}>{cell(group, group[kind]?.b10)}</Cell>
                  <Cell label={`B50, ${units.distance}`}>{cell(group, group[kind]?.b50)}</Cell>
                  <Cell label={spread} isWords>
                    {saySpread(group, kind)}
                  </Cell>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </RowTable>
      {beyond && (
        <p className={head.reading}>* beyond what has been seen of this group: the fit carried on.</p>
      )}
    </section>
  );
}

const sayMissing = ({ declined }: LivesGroup, kind: LifeFitKind): string => {
  const why = declined[kind];
  return why === undefined ? noFigure : `${why.reason}; needed: ${why.needed}; there: ${why.got}`;
};

function saySpread({ weibull, lognormal }: LivesGroup, kind: LifeFitKind): string {
  if (kind === 'weibull')
    return weibull === null
      ? noFigure
      : `${formatShape(weibull.shape)} (${formatShape(weibull.shape_low)} to ${formatShape(weibull.shape_high)}), ${sayShape({ low: weibull.shape_low, high: weibull.shape_high })}`;
  return lognormal === null
    ? noFigure
    : `${lognormal.sigma.toFixed(2)} (${lognormal.sigma_low.toFixed(2)} to ${lognormal.sigma_high.toFixed(2)})`;
}
