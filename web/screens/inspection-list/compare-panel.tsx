import { useQueries } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
import { vehicleOptions } from '#web/api/use-vehicle.ts';
import { useWordUnits } from '#web/api/use-word-units.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { scaleForHorizon } from '#web/ui/rail-geometry.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { Spark } from '#web/ui/spark.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './compare-panel.module.css';
import { firstReason } from './first-reason.ts';
import { listFacts } from './list-facts.ts';
import { mostCompared } from './list-search.ts';
import { sparkSpan } from './spark-span.ts';

interface Props {
  vehicles: readonly string[];
  rows: readonly RankingRow[];
  horizonKm: number | null;
  onDrop: (vehicle: string) => void;
  onClear: () => void;
}

/** Two or three vehicles side by side, rails and sparks on one scale. */
export function ComparePanel({ vehicles, rows, horizonKm, onDrop, onClear }: Props) {
  const [isUnfolded, setUnfolded] = useState(true);
  const panel = useRef<HTMLElement>(null);
  useRoomBelow(panel);
  const found = useCompared(vehicles, rows);
  const isTable = isUnfolded && vehicles.length > 1 && horizonKm !== null;
  return (
    <aside ref={panel} className={styles.panel} aria-label="Comparison">
      <div className={styles.bar}>
        <h2 className={styles.title}>
          {vehicles.length > 1 ? `Comparing ${vehicles.length} vehicles` : vehicles[0]}
        </h2>
        {vehicles.length === 1 && <p className={styles.hint}>chosen; choose one or two more to compare</p>}
        {vehicles.length > 1 && (
          <button
            type="button"
            className={styles.button}
            aria-expanded={isUnfolded}
            onClick={() => setUnfolded(!isUnfolded)}
          >
            {isUnfolded ? 'Fold' : 'Unfold'}
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

type Found = ReadonlyMap<string, RankingRow | 'waiting' | 'none'>;

/** A compared vehicle may stand outside of the filter or of the pages loaded so far: then it is asked for. */
function useCompared(vehicles: readonly string[], rows: readonly RankingRow[]): Found {
  const units = useWordUnits();
  const answers = useQueries({
    queries: vehicles.map((vehicle) => ({
      ...vehicleOptions(vehicle, units),
      enabled: !rows.some((row) => row.vehicle === vehicle),
    })),
  });
  return new Map(
    vehicles.map((vehicle, i) => {
      const row = rows.find((one) => one.vehicle === vehicle) ?? answers[i]?.data?.assessment;
      return [vehicle, row ?? (answers[i]?.isPending ? 'waiting' : 'none')];
    }),
  );
}

function CompareTable({
  vehicles,
  found,
  horizonKm,
  onDrop,
}: {
  vehicles: readonly string[];
  found: Found;
  horizonKm: number;
  onDrop: (vehicle: string) => void;
}) {
  const units = useUnits();
  const scaleKm = scaleForHorizon(horizonKm, units);
  const now = new Date();
  const columns = vehicles.map((vehicle) => {
    const row = found.get(vehicle) ?? 'none';
    return { vehicle, row, facts: typeof row === 'string' ? [] : listFacts(row, units, now) };
  });
  const factNames = columns.find(({ facts }) => facts.length > 0)?.facts.map(({ name }) => name) ?? [];
  const eachRow = (draw: (row: RankingRow) => React.ReactNode) =>
    columns.map(({ vehicle, row }) => <td key={vehicle}>{typeof row === 'string' ? null : draw(row)}</td>);
  return (
    <div className={styles.scroll}>
      <table className={styles.table} style={{ ['--columns' as string]: vehicles.length }}>
        <thead>
          <tr>
            <td />
            {columns.map(({ vehicle, row }) => (
              <th key={vehicle} scope="col">
                <span className={styles.name}>
                  <Link to="/vehicles/$vehicle" params={{ vehicle }}>
                    {vehicle}
                  </Link>
                  {typeof row === 'string' ? (
                    <span>{row === 'waiting' ? 'loading' : 'not found'}</span>
                  ) : (
                    <GradeMark grade={row.grade} />
                  )}
                  <button
                    type="button"
                    className={styles.drop}
                    onClick={() => onDrop(vehicle)}
                    aria-label={`Take ${vehicle} out of the comparison`}
                  >
                    ×
                  </button>
                </span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">Distance to limit</th>
            {eachRow((row) => (
              <>
                <DistanceRail
                  distance={row.km_to_limit}
                  grade={row.grade}
                  horizonKm={horizonKm}
                  scaleKm={scaleKm}
                  reason={row.missing[0] ?? null}
                />
                <RailScale horizonKm={horizonKm} scaleKm={scaleKm} />
              </>
            ))}
          </tr>
          <tr>
            <th scope="row">Slip, last {sparkSpan(units)}</th>
            {eachRow((row) => (
              <Spark points={row.spark} limitRpm={row.limit_rpm} width={200} height={44} />
            ))}
          </tr>
          {factNames.map((name, i) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {columns.map(({ vehicle, facts }) => (
                <td key={vehicle}>{facts[i]?.value}</td>
              ))}
            </tr>
          ))}
          <tr>
            <th scope="row">First reason</th>
            {eachRow((row) => firstReason(row))}
          </tr>
        </tbody>
      </table>
      {vehicles.length < mostCompared && <p className={styles.hint}>One more can be chosen.</p>}
    </div>
  );
}

/** Keeps the height that the panel covers free at the end of the page and below a focused row. */
function useRoomBelow(panel: React.RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const element = panel.current;
    if (element === null) return;
    const root = document.documentElement;
    const observer = new ResizeObserver(() => {
      root.style.setProperty('--covered-below', `${element.offsetHeight}px`);
    });
    observer.observe(element);
    return () => {
      observer.disconnect();
      root.style.removeProperty('--covered-below');
    };
  }, [panel]);
}
