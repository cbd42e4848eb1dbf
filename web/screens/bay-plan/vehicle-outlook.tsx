import { Link } from '@tanstack/react-router';
import { useVehicle } from '#web/api/use-vehicle.ts';
import { formatDays } from '#web/format/format-days.ts';
import { describeRail } from '#web/ui/describe-rail.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { gradeMeaning } from '#web/ui/grade-words.ts';
import { scaleForHorizon, shapeRail } from '#web/ui/rail-geometry.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './beside.module.css';

const horizonKm = 5000;

/** How far a vehicle still is from its limit, and why it is graded as it is. */
export function VehicleOutlook({ vehicle }: { vehicle: string }) {
  const units = useUnits();
  const { data } = useVehicle(vehicle);
  const row = data?.assessment ?? null;
  const scaleKm = scaleForHorizon(horizonKm, units);
  const grade = row?.grade ?? 'unknown';
  const away = data?.unavailable ?? [];
  return (
    <section className={styles.outlook} aria-label={`State of ${vehicle}`} aria-busy={data === undefined}>
      <p className={styles.grade}>
        <GradeMark grade={grade} />
        <span className={styles.soft}>{gradeMeaning[grade]}</span>
      </p>
      {data !== undefined && (
        <>
          <DistanceRail
            size="head"
            distance={row?.km_to_limit ?? { p10: null, p50: null, p90: null }}
            grade={grade}
            horizonKm={horizonKm}
            scaleKm={scaleKm}
            showsReason={false}
          />
          <RailScale horizonKm={horizonKm} scaleKm={scaleKm} />
          {row !== null && (
            <p className={styles.soft}>
              {describeRail(
                shapeRail(row.km_to_limit, grade, scaleKm),
                row.km_to_limit,
                units,
                row.missing[0] ?? null,
              )}
              {row.days_to_limit.p50 !== null &&
                row.days_to_limit.p50 > 0 &&
                `, about ${formatDays(row.days_to_limit.p50)} as it is driven`}
            </p>
          )}
          {row?.reasons[0] !== undefined && <p>{row.reasons[0]}</p>}
          {away.map(({ from, to, note }) => (
            <p key={from} className={styles.soft}>
              Cannot be taken from {from} to {to}
              {note !== '' && `: ${note}`}
            </p>
          ))}
          <p>
            <Link to="/vehicles/$vehicle" params={{ vehicle }}>
              Open vehicle {vehicle}
            </Link>
          </p>
        </>
      )}
    </section>
  );
}
