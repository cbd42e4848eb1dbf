import { Link } from '@tanstack/react-router';
import type { VehicleDetail } from '#server/contract/vehicle.ts';
import { useVehicle } from '#web/api/use-vehicle.ts';
import { formatDaySpan } from '#web/format/format-day.ts';
import { formatDays } from '#web/format/format-days.ts';
import { describeRail } from '#web/ui/describe-rail.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { sayMeaning } from '#web/ui/grade-words.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { scaleForHorizon, shapeRail, usualHorizonKm } from '#web/ui/rail-geometry.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './beside.module.css';

/** How far a vehicle still is from its limit, and why it is graded as it is. */
export function VehicleOutlook({ vehicle }: { vehicle: string }) {
  const { data, isPending, isError, error, refetch } = useVehicle(vehicle);
  return (
    <section className={styles.outlook} aria-label={`State of ${vehicle}`} aria-busy={isPending}>
      {isPending && <p className={styles.soft}>Loading its state</p>}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {data !== undefined && <Known detail={data} />}
    </section>
  );
}

function Known({ detail: { vehicle, assessment: row, unavailable } }: { detail: VehicleDetail }) {
  const units = useUnits();
  const scaleKm = scaleForHorizon(usualHorizonKm, units);
  const grade = row?.grade ?? 'unknown';
  return (
    <>
      <p className={styles.grade}>
        <GradeMark grade={grade} />
        <span className={styles.soft}>{sayMeaning(grade)}</span>
      </p>
      <DistanceRail
        size="head"
        distance={row?.km_to_limit ?? { p10: null, p50: null, p90: null }}
        grade={grade}
        horizonKm={usualHorizonKm}
        scaleKm={scaleKm}
        showsReason={false}
      />
      <RailScale horizonKm={usualHorizonKm} scaleKm={scaleKm} />
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
      {unavailable.map(({ from, to, note }) => (
        <p key={from} className={styles.soft}>
          Cannot be taken on {formatDaySpan(from, to)}
          {note !== '' && `: ${note}`}
        </p>
      ))}
      <p>
        <Link to="/vehicles/$vehicle" params={{ vehicle }}>
          Open vehicle {vehicle}
        </Link>
      </p>
    </>
  );
}
