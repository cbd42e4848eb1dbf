import { Link } from '@tanstack/react-router';
import type { Digest, StandsNow } from '#server/contract/digest.ts';
import { useDepotName } from '#web/api/use-fleet-names.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import styles from './digest.module.css';

interface Props {
  line: { vehicle: string; depot: string | null; text: string; now?: StandsNow };
  /** where distances are told */
  rail?: { horizonKm: number; scaleKm: number };
}

/** One vehicle: its number, where it stands, and what there is to say. */
export function VehicleLine({ line, rail }: Props) {
  const depotName = useDepotName();
  return (
    <li className={styles.line} data-rail={rail !== undefined}>
      <div className={styles.who}>
        <Link to="/vehicles/$vehicle" params={{ vehicle: line.vehicle }} className={styles.unit}>
          {line.vehicle}
        </Link>
        <span className={styles.depot}>{line.depot === null ? 'no depot' : depotName(line.depot)}</span>
      </div>
      {rail !== undefined && (
        <>
          <div className={styles.grade}>{line.now != null && <GradeMark grade={line.now.grade} />}</div>
          <div className={styles.rail}>
            {line.now != null && (
              <DistanceRail
                distance={line.now.km_to_limit}
                grade={line.now.grade}
                reason={line.now.missing}
                {...rail}
              />
            )}
          </div>
        </>
      )}
      <p className={styles.text}>{keepUnits(line.text)}</p>
    </li>
  );
}

type Gateway = NonNullable<Digest['gone_quiet']['gateways']>[number];

export const GatewayLine = ({ gateway }: { gateway: Gateway }) => (
  <li className={styles.line}>
    <div className={styles.who}>
      <span className={styles.unit}>{gateway.name}</span>
      <span className={styles.depot}>key of a gateway</span>
    </div>
    <p className={styles.text}>{keepUnits(gateway.text)}</p>
  </li>
);
