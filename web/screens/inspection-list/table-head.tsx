import type { RankingQuery } from '#server/contract/ranking.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { TickBox } from '#web/ui/tick-box.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './list-table.module.css';
import { sortWords } from './sort-words.ts';
import { sparkSpan } from './spark-span.ts';
import type { ChoiceOfAll } from './use-choice.ts';
import type { Columns } from './use-columns.ts';
import type { ListState } from './use-list-state.ts';

interface Props {
  columns: Columns;
  horizonKm: number;
  scaleKm: number;
  all: ChoiceOfAll;
  state: ListState;
}

/** The heads of the columns; a press on a name puts the list in the order of that figure. */
export function TableHead({ columns, horizonKm, scaleKm, all, state }: Props) {
  const units = useUnits();
  return (
    <thead>
      <tr aria-rowindex={1}>
        {columns.choose && (
          <th className={styles.choose} scope="col">
            <TickBox
              label={all.isFull ? 'Choose none' : all.words}
              checked={all.isFull || (state.chosen.length > 0 && 'some')}
              disabled={all.isBusy}
              onChange={all.isFull ? state.clearChoice : all.chooseAll}
            />
          </th>
        )}
        <Head of="rank" lines={[{ name: 'Rank', sort: 'rank' }]} state={state} />
        <Head of="grade" lines={[{ name: 'Grade' }]} state={state} />
        <Head of="vehicle" lines={[{ name: 'Vehicle', sort: 'vehicle' }]} state={state} />
        {columns.depot && <Head of="depot" lines={[{ name: 'Depot' }]} state={state} />}
        {columns.platform && <Head of="platform" lines={[{ name: 'Platform' }]} state={state} />}
        <Head of="rail" lines={[{ name: 'Distance to limit', sort: 'distance' }]} state={state}>
          <RailScale horizonKm={horizonKm} scaleKm={scaleKm} />
        </Head>
        {columns.spark && (
          <Head of="spark" lines={[{ name: 'Slip' }, { name: `last ${sparkSpan(units)}` }]} state={state} />
        )}
        <Head
          of="slip"
          lines={[
            { name: 'Slip, rpm', sort: 'slip' },
            { name: `Drift /1,000 ${units.distance}`, sort: 'drift' },
          ]}
          state={state}
        />
        <Head of="chance" lines={[{ name: 'Chance', sort: 'chance' }, { name: 'to limit' }]} state={state} />
        <Head of="booking" lines={[{ name: 'Booking' }]} state={state} />
        {columns.odometer && (
          <Head of="odometer" lines={[{ name: 'Odometer' }, { name: units.distance }]} state={state} />
        )}
        {columns.lastReading && (
          <Head of="lastReading" lines={[{ name: 'Last reading', sort: 'last_reading' }]} state={state} />
        )}
        <Head of="reason" lines={[{ name: 'First reason' }]} state={state} />
      </tr>
    </thead>
  );
}

type Sort = NonNullable<RankingQuery['sort']>;

interface HeadProps {
  of: string;
  lines: readonly { name: string; sort?: Sort }[];
  state: ListState;
  children?: React.ReactNode;
}

function Head({ of, lines, state, children }: HeadProps) {
  const now = state.search.sort ?? 'rank';
  const isOrder = lines.some(({ sort }) => sort === now);
  return (
    <th className={styles[of]} scope="col" aria-sort={isOrder ? directions[now] : undefined}>
      {lines.map(({ name, sort }) =>
        sort === undefined ? (
          <span key={name} className={styles.line}>
            {name}
          </span>
        ) : (
          <button
            key={name}
            type="button"
            className={styles.sort}
            data-chosen={sort === now}
            title={`Order: ${sortWords[sort]}`}
            onClick={() => state.change({ sort: sort === 'rank' ? undefined : sort })}
          >
            <span>{name}</span>
          </button>
        ),
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
