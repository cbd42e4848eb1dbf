import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
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
import type { Found } from './use-compared.ts';

export function CompareTable({
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
  const eachRow = (draw: (row: RankingRow) => ReactNode) =>
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
                  showsReason={false}
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
