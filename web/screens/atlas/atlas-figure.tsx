import { useCallback } from 'react';
import type { AtlasPlane } from '#server/contract/atlas.ts';
import { atlasOption } from '#web/charts/atlas-option.ts';
import type { AtlasAxis } from '#web/charts/atlas-plot.ts';
import { sayLines } from '#web/charts/atlas-quantiles.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { listAtlasNumbers } from '#web/charts/list-atlas-numbers.ts';
import head from '#web/ui/screen-head.module.css';
import styles from './atlas.module.css';

interface Props {
  axis: AtlasAxis;
  plane: AtlasPlane;
  limitRpm: number;
  vehicle: string | null;
  /** days, and that of the newest reading, for pictures that are saved */
  selection: string;
  dataTo: string;
  /** what is to be seen, for those who do not see it */
  sentence: string;
}

const heightPx = 460;

export function AtlasFigure({ axis, plane, limitRpm, vehicle, selection, dataTo, sentence }: Props) {
  const draw = useCallback(
    (frame: Frame) => atlasOption({ axis, plane, limitRpm, vehicle }, frame),
    [axis, plane, limitRpm, vehicle],
  );
  const numbers = useCallback(
    ({ units }: Frame) => listAtlasNumbers({ axis, plane, vehicle }, units),
    [axis, plane, vehicle],
  );
  const against = axis === 'fluid' ? 'fluid temperature' : 'command';
  return (
    <Chart
      title={
        <div className={styles.caption}>
          <h2>Slip against {against}</h2>
          <p className={head.reading}>
            {axis === 'fluid' ? 'At the reference command. ' : 'Each command band by itself. '}
            {sayLines(plane)}
            {vehicle !== null && (
              <>
                {' '}
                Dots: <span className={styles.unit}>{vehicle}</span>, the newest strongest.
              </>
            )}
          </p>
        </div>
      }
      label={`Slip against ${against}. ${sentence}`}
      draw={draw}
      height={heightPx}
      numbers={numbers}
      selection={selection}
      dataTo={dataTo}
    />
  );
}
