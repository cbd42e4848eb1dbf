import { useCallback } from 'react';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { listSurvivalNumbers } from '#web/charts/list-survival-numbers.ts';
import { survivalHeight, survivalOption } from '#web/charts/survival-option.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import head from '#web/ui/screen-head.module.css';
import { useUnits } from '#web/ui/use-units.ts';
import type { LivesFigureProps } from './figure-props.ts';
import { sayEarlyEnd } from './say-early-end.ts';

export function SurvivalFigure({ groups, confidence, axisOf, source }: LivesFigureProps) {
  const draw = useCallback(
    (frame: Frame) => survivalOption(groups, axisOf(frame.units), frame),
    [groups, axisOf],
  );
  const numbers = useCallback(
    (frame: Frame) => listSurvivalNumbers(groups, axisOf(frame.units)),
    [groups, axisOf],
  );
  const height = useCallback((widthPx: number) => survivalHeight(groups, widthPx), [groups]);
  const axis = axisOf(useUnits());
  const told = groups.map(({ name, events, n, kaplan_meier }) => {
    const left = kaplan_meier.at(-1)?.survival ?? 1;
    return `${name}: ${formatWhole(events)} of ${formatWhole(n)} failed, ${formatPercent(left)} still running at the end`;
  });
  const ends = groups.flatMap((group) => sayEarlyEnd(group, axis) ?? []);
  return (
    <div>
      <Chart
        title={
          <div>
            <h2>Still running</h2>
            <p className={head.reading}>
              Share that has not failed. The shade holds {formatPercent(confidence)}, and a tick is one last
              seen running. Below: how many are under watch there.
            </p>
          </div>
        }
        label={`Share still running against ${axis.title}. ${told.join('. ')}.`}
        draw={draw}
        height={height}
        numbers={numbers}
        {...source}
      />
      {ends.map((words) => (
        <p key={words} className={head.reading}>
          {words}
        </p>
      ))}
    </div>
  );
}
