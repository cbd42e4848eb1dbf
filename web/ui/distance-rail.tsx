import type { Distance } from '#server/contract/ranking.ts';
import type { Grade } from '#server/contract/words.ts';
import { formatKm } from '#web/format/format-km.ts';
import { describeRail } from './describe-rail.ts';
import styles from './distance-rail.module.css';
import { shapeRail } from './rail-geometry.ts';
import { useUnits } from './use-units.ts';

interface Props {
  distance: Distance;
  grade: Grade;
  horizonKm: number;
  /** The end of the scale, the same for every rail of one view: see `scaleForHorizon`. */
  scaleKm: number;
  /** Why nothing can be said, shown where the grade is unknown. */
  reason?: string | null;
  /** False where the reason stands in words beside the rail. */
  showsReason?: boolean;
  size?: 'row' | 'head';
}

const percent = (share: number): string => `${share * 100}%`;

/** The recurring figure: how far it still is, limit at the left end, p10 to p90 thick, p50 notched. */
export function DistanceRail({
  distance,
  grade,
  horizonKm,
  scaleKm,
  reason = null,
  showsReason = true,
  size = 'row',
}: Props) {
  const units = useUnits();
  const shape = shapeRail(distance, grade, scaleKm);
  const words = describeRail(shape, distance, units, reason);
  const height = size === 'row' ? 20 : 44;
  const middle = height / 2;
  const thick = size === 'row' ? 8 : 16;
  return (
    <span className={styles.rail} data-size={size} data-grade={grade} data-kind={shape.kind} title={words}>
      <svg className={styles.figure} width="100%" height={height} role="img" aria-label={words}>
        <line
          className={styles.base}
          x1="0"
          x2="100%"
          y1={middle}
          y2={middle}
          strokeDasharray={shape.kind === 'unknown' ? '2 5' : undefined}
        />
        <line
          className={styles.horizon}
          x1={percent(horizonKm / scaleKm)}
          x2={percent(horizonKm / scaleKm)}
          y1={middle - thick}
          y2={middle + thick}
        />
        <line
          className={styles.limit}
          x1="0"
          x2="0"
          y1={size === 'row' ? 2 : 4}
          y2={height - (size === 'row' ? 2 : 4)}
        />
        {shape.kind === 'passed' && (
          <rect className={styles.span} x="0" width={thick} y={middle - thick * 0.75} height={thick * 1.5} />
        )}
        {shape.kind === 'interval' && (
          <>
            <rect
              className={styles.span}
              x={percent(shape.from)}
              style={{ width: `max(2px, ${percent(shape.to - shape.from)})` }}
              y={middle - thick / 2}
              height={thick}
            />
            {shape.notch !== null && (
              <line
                className={styles.notch}
                x1={percent(shape.notch)}
                x2={percent(shape.notch)}
                y1={middle - thick / 2 - 1}
                y2={middle + thick / 2 + 1}
              />
            )}
          </>
        )}
        {(shape.kind === 'beyond' || (shape.kind === 'interval' && shape.open)) && (
          <svg className={styles.arrow} x="100%" y={middle} overflow="visible" aria-hidden="true">
            <path d={`M0 ${-thick / 2 - 1}L${thick * 0.8} 0L0 ${thick / 2 + 1}Z`} />
          </svg>
        )}
      </svg>
      {shape.kind === 'beyond' && <span className={styles.figureText}>{formatKm(shape.km, units)}</span>}
      {shape.kind === 'unknown' && showsReason && <span className={styles.reason}>{words}</span>}
      {shape.kind === 'passed' && <span className={styles.passed}>limit passed</span>}
    </span>
  );
}
