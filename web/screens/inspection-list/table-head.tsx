import type { RankingQuery } from '#server/contract/ranking.ts';
import { driftPer } from '#web/format/format-rpm.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './list-table.module.css';
import { sortWords } from './sort-words.ts';
import { sparkSpan } from './spark-span.ts';
import type { Columns } from './use-columns.ts';
import type { ListState } from './use-list-state.ts';

interface Props {
  columns: Columns;
  horizonKm: number;
  scaleKm: number;
  state: ListState;
}

export function TableHead({ columns, horizonKm, scaleKm, state }: Props) {
  const units = useUnits();
  const by = (sort: Sort): Order => ({ sort, state });
  return (
    <thead>
      <tr aria-rowindex={1}>
        <Head of="choose" spoken="Compare" />
        <Head of="rank" name="Rank" order={by('rank')} />
        <Head of="grade" name="Grade" />
        <Head of="vehicle" name="Vehicle" order={by('vehicle')} />
        {columns.place && <Head of="place" name="Depot" unit="platform" />}
        <Head of="rail" name="Distance to limit" order={by('distance')}>
          <RailScale horizonKm={horizonKm} scaleKm={scaleKm} />
        </Head>
        {columns.spark && <Head of="spark" name="Slip" unit={`last ${sparkSpan(units)}`} />}
        <Head of="slip" name="Slip" unit="of limit, rpm" order={by('slip')} />
        <Head of="drift" name="Drift" unit={driftPer(units)} order={by('drift')} />
        <Head of="chance" name="Chance" unit="in horizon" order={by('chance')} />
        <Head of="days" name="To limit" unit="median" />
        {columns.odometer && <Head of="odometer" name="Odometer" unit={units.distance} />}
        {columns.lastReading && (
          <Head of="lastReading" name="Last" unit="reading" order={by('last_reading')} />
        )}
        <Head of="reason" name="First reason" />
      </tr>
    </thead>
  );
}

type Sort = NonNullable<RankingQuery['sort']>;

/** The order of the list that a press on a head asks for. */
interface Order {
  sort: Sort;
  state: ListState;
}

interface HeadProps {
  of: string;
  name?: string;
  unit?: string;
  spoken?: string;
  order?: Order;
  children?: React.ReactNode;
}

/** The head of a column; where the list can be put in the column's order, a press does it. */
function Head({ of, name, unit, spoken, children, order }: HeadProps) {
  const isChosen = order !== undefined && (order.state.search.sort ?? 'rank') === order.sort;
  return (
    <th className={styles[of]} scope="col" aria-sort={isChosen ? directions[order.sort] : undefined}>
      {order === undefined ? (
        <>
          {name}
          {spoken !== undefined && <span className="only-spoken">{spoken}</span>}
          {unit !== undefined && <span className={styles.unit}> {unit}</span>}
        </>
      ) : (
        <button
          type="button"
          className={styles.sort}
          title={`Order: ${sortWords[order.sort]}`}
          onClick={() => order.state.change({ sort: order.sort === 'rank' ? undefined : order.sort })}
        >
          <span>{name}</span>
          {unit !== undefined && <span className={styles.unit}> {unit}</span>}
        </button>
      )}
      {children}
    </th>
  );
}

const directions: Record<Sort, 'ascending' | 'descending'> = {
  rank: 'ascending',
  vehicle: 'ascending',
  distance: 'ascending',
  chance: 'descending',
  slip: 'descending',
  drift: 'descending',
  last_reading: 'descending',
};
