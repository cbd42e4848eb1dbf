import styles from './spark.module.css';
import { shapeSpark } from './spark-geometry.ts';

interface Props {
  points: readonly (readonly [number, number])[];
  limitRpm: number | null;
  width?: number;
  height?: number;
}

/** Without a platform there is no limit; the default of a platform then only sets the scale. */
const scaleWithoutLimitRpm = 150;

/** Slip over the last 10,000 km. Beside it the figures stand as text, so it stays unspoken. */
export function Spark({ points, limitRpm, width = 104, height = 26 }: Props) {
  const figure = shapeSpark(points, limitRpm ?? scaleWithoutLimitRpm, width, height);
  return (
    <svg
      className={styles.spark}
      width={width + 6}
      height={height + 2}
      viewBox={`0 -1 ${width + 6} ${height + 2}`}
      aria-hidden="true"
    >
      <path className={styles.ground} d={`M0 ${height}H${width}`} />
      {limitRpm !== null && points.length > 0 && (
        <path className={styles.limit} d={`M0 ${figure.limitY}H${width}`} />
      )}
      <path className={styles.line} d={figure.path} />
      {figure.end !== null && <circle className={styles.end} cx={figure.end.x} cy={figure.end.y} r="2.25" />}
    </svg>
  );
}
