import type { RankingRow } from '#server/contract/ranking.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { listFacts } from './list-facts.ts';
import styles from './row-details.module.css';

export function RowFacts({ row }: { row: RankingRow }) {
  const units = useUnits();
  return (
    <dl className={styles.facts}>
      {listFacts(row, units, new Date()).map(({ name, value }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
