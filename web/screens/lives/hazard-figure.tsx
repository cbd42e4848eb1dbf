import { useCallback } from 'react';
import type { LivesGroup } from '#server/contract/lives.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { hazardOption } from '#web/charts/hazard-option.ts';
import { errorsOf } from '#web/charts/life-paper.ts';
import { listHazardNumbers } from '#web/charts/list-survival-numbers.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import styles from './lives.module.css';

interface Props {
  groups: readonly LivesGroup[];
  confidence: number;
}

const heightPx = 340;

export function HazardFigure({ groups, confidence }: Props) {
  const draw = useCallback(
    (frame: Frame) => hazardOption(groups, mileageAxis(frame.units), errorsOf(confidence), frame),
    [groups, confidence],
  );
  const numbers = useCallback(
    (frame: Frame) => listHazardNumbers(groups, mileageAxis(frame.units)),
    [groups],
  );
  const told = groups.map(
    ({ name, nelson_aalen: points }) =>
      `${name}: ${(points.at(-1)?.cumulative_hazard ?? 0).toFixed(2)} at the end`,
  );
  return (
    <Chart
      title={
        <div>
          <h2>Hazard</h2>
          <p className={styles.reading}>
            Failures gathered for each converter. A straight line is failing by chance, one that bends up is
            wearing out, one that flattens is failing early.
          </p>
        </div>
      }
      label={`Cumulative hazard by mileage. ${told.join('. ')}.`}
      draw={draw}
      height={heightPx}
      numbers={numbers}
    />
  );
}
