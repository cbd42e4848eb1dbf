import type { VehicleDetail } from '#server/contract/vehicle.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import head from '#web/ui/distance-head.module.css';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { sayMeaning } from '#web/ui/grade-words.ts';
import { scaleForHorizon, usualHorizonKm } from '#web/ui/rail-geometry.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { BookingLine } from './booking-line.tsx';
import { listVehicleFacts } from './list-vehicle-facts.ts';
import styles from './vehicle-head.module.css';

interface Props {
  vehicle: string;
  detail: VehicleDetail | null;
  horizonKm: number | null;
}

const sayPlace = (detail: VehicleDetail): string =>
  [
    detail.platform_name ?? detail.platform ?? 'platform not set',
    detail.depot_name ?? detail.depot ?? 'depot not set',
  ].join(' · ');

/** What and where it is, the sentence, the grade, the rail, and the few facts that a planner asks first. */
export function VehicleHead({ vehicle, detail, horizonKm }: Props) {
  const units = useUnits();
  const assessment = detail?.assessment ?? null;
  const grade = assessment?.grade ?? 'unknown';
  const horizon = horizonKm ?? usualHorizonKm;
  const scaleKm = scaleForHorizon(horizon, units);
  return (
    <header className={head.head} aria-busy={detail === null}>
      <div className={head.stack}>
        <div className={head.nameLine}>
          <h1 className={head.name}>{vehicle}</h1>
          {detail !== null && (
            <p className={head.grade}>
              <GradeMark grade={grade} />
              <span className={head.soft}>{sayMeaning(grade)}</span>
            </p>
          )}
        </div>
        <p className={head.soft}>{detail === null ? '\u00a0' : sayPlace(detail)}</p>
        <p className={head.sentence}>{keepUnits(detail?.sentence ?? '\u00a0')}</p>
        {detail !== null && <BookingLine detail={detail} />}
        {detail?.retired === true && <p>This vehicle is retired.</p>}
      </div>
      <div>
        <p className={head.label}>Distance to limit</p>
        {detail !== null && (
          <>
            <DistanceRail
              size="head"
              distance={assessment?.km_to_limit ?? { p10: null, p50: null, p90: null }}
              grade={grade}
              horizonKm={horizon}
              scaleKm={scaleKm}
              reason={assessment?.missing[0] ?? 'not assessed yet'}
            />
            <div className={head.scale}>
              <RailScale horizonKm={horizon} scaleKm={scaleKm} />
            </div>
          </>
        )}
      </div>
      <dl className={styles.facts}>
        {(detail === null ? [] : listVehicleFacts(detail, horizon, units, new Date())).map(
          ({ name, value, note }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>
                {value}
                {note !== undefined && <span className={styles.note}>{note}</span>}
              </dd>
            </div>
          ),
        )}
      </dl>
      <p className={styles.caution}>
        Slipdrift advises which vehicle to look at first; no grade here says that a vehicle is safe to drive.
        The maker’s service information, local codes and a licensed technician decide.
      </p>
    </header>
  );
}
