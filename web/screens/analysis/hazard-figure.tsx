import { useCallback } from 'react';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { hazardOption } from '#web/charts/hazard-option.ts';
import { errorsOf } from '#web/charts/life-paper.ts';
import { listHazardNumbers } from '#web/charts/list-survival-numbers.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import head from '#web/ui/screen-head.module.css';
import { useUnits } from '#web/ui/use-units.ts';
import type { LivesFigureProps } from './figure-props.ts';

const heightPx = 340;

export function HazardFigure({ groups, confidence, axisOf, source }: LivesFigureProps) {
  const draw = useCallback(
    (frame: Frame) => hazardOption(groups, axisOf(frame.units), errorsOf(confidence), frame),
    [groups, confidence, axisOf],
  );
  const numbers = useCallback(
    (frame: Frame) => listHazardNumbers(groups, axisOf(frame.units)),
    [groups, axisOf],
  );
  const axis = axisOf(useUnits());
  const told = groups.map(
    ({ name, nelson_aalen: points }) =>
      `${name}: ${(points.at(-1)?.cumulative_hazard ?? 0).toFixed(2)} at the end`,
  );
  return (
    <Chart
      title={
        <div>
          <h2>Hazard</h2>
          <p className={head.reading}>
            Failures gathered for each that runs; the shade holds {formatPercent(confidence)}. A straight line
            is failing by chance, one that bends up is wearing out, one that flattens is failing early.
          </p>
        </div>
      }
      label={`Cumulative hazard against ${axis.title}. ${told.join('. ')}.`}
      draw={draw}
      height={heightPx}
      numbers={numbers}
      {...source}
    />
  );
}
