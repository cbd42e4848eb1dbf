import { useRef, useState } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
import styles from './compare-panel.module.css';
import { CompareTable } from './compare-table.tsx';
import { useCompared } from './use-compared.ts';
import { useRoomBelow } from './use-room-below.ts';

interface Props {
  vehicles: readonly string[];
  rows: readonly RankingRow[];
  horizonKm: number | null;
  onDrop: (vehicle: string) => void;
  onClear: () => void;
}

/** Two or three vehicles side by side, rails and sparks on one scale. */
export function ComparePanel({ vehicles, rows, horizonKm, onDrop, onClear }: Props) {
  const [isUnfolded, setUnfolded] = useState(
    () => vehicles.length > 1 && window.matchMedia('(min-width: 48rem)').matches,
  );
  const panel = useRef<HTMLElement>(null);
  useRoomBelow(panel);
  const found = useCompared(vehicles, rows);
  const isTable = isUnfolded && vehicles.length > 1 && horizonKm !== null;
  return (
    <aside ref={panel} className={styles.panel} aria-label="Comparison">
      <div className={styles.bar}>
        <h2 className={styles.title}>
          <span className="only-spoken">Chosen: </span>
          {vehicles.join(', ')}
        </h2>
        {vehicles.length === 1 && <p className={styles.hint}>chosen; choose one or two more to compare</p>}
        {vehicles.length > 1 && (
          <button
            type="button"
            className={styles.button}
            aria-expanded={isUnfolded}
            onClick={() => setUnfolded(!isUnfolded)}
          >
            {isUnfolded ? 'Fold' : 'Compare side by side'}
          </button>
        )}
        <button type="button" className={styles.button} onClick={onClear}>
          Clear
        </button>
      </div>
      {isTable && <CompareTable vehicles={vehicles} found={found} horizonKm={horizonKm} onDrop={onDrop} />}
    </aside>
  );
}
