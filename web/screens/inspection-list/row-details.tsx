import { Link } from '@tanstack/react-router';
import type { RankingRow } from '#server/contract/ranking.ts';
import { describeRail } from '#web/ui/describe-rail.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { patternWords } from '#web/ui/pattern-words.ts';
import { shapeRail } from '#web/ui/rail-geometry.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './row-details.module.css';
import { RowFacts } from './row-facts.tsx';

interface Props {
  row: RankingRow;
  horizonKm: number;
  scaleKm: number;
}

/** All that the list knows of one vehicle: reasons, what is missing, the figures, the way on. */
export function RowDetails({ row, horizonKm, scaleKm }: Props) {
  const units = useUnits();
  const pattern = patternWords[row.pattern];
  const missing = row.missing[0] ?? null;
  return (
    <div className={styles.details}>
      <div className={styles.argument}>
        <p className={styles.distance}>
          {describeRail(shapeRail(row.km_to_limit, row.grade, scaleKm), row.km_to_limit, units, missing)}
        </p>
        <DistanceRail
          distance={row.km_to_limit}
          grade={row.grade}
          horizonKm={horizonKm}
          scaleKm={scaleKm}
          size="head"
        />
        <RailScale horizonKm={horizonKm} scaleKm={scaleKm} />
        <Link className={styles.onward} to="/vehicles/$vehicle" params={{ vehicle: row.vehicle }}>
          Open vehicle {row.vehicle}
        </Link>
      </div>
      <div className={styles.words}>
        {row.reasons.length > 0 && <WordList title="Reasons" items={row.reasons} />}
        {row.missing.length > 0 && <WordList title="Missing" items={row.missing} />}
        {pattern !== null && (
          <p>
            <span className={styles.label}>Pattern </span>
            {pattern}
          </p>
        )}
      </div>
      <RowFacts row={row} />
    </div>
  );
}

function WordList({ title, items }: { title: string; items: readonly string[] }) {
  return (
    <div>
      <h3 className={styles.label}>{title}</h3>
      <ol className={styles.list}>
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ol>
    </div>
  );
}
