import type { PlatformSummary } from '#server/contract/movement.ts';
import styles from './platforms-screen.module.css';
import { type StripScale, shapeStrip } from './strip-geometry.ts';

const width = 240;
const height = 34;

/** Common movement since the first weeks. Its steps stand beside it as words, so it stays unspoken. */
export function MovementStrip({ platform, scale }: { platform: PlatformSummary; scale: StripScale }) {
  const figure = shapeStrip(platform, scale, width, height);
  return (
    <svg className={styles.strip} viewBox={`0 -2 ${width} ${height + 4}`} aria-hidden="true" data-strip="">
      <path className={styles.ground} d={`M0 ${figure.zeroY}H${width}`} />
      {figure.steps.map(({ id, x }) => (
        <path key={id} className={styles.step} d={`M${x} 0V${height}`} />
      ))}
      <path className={styles.line} d={figure.path} />
    </svg>
  );
}
