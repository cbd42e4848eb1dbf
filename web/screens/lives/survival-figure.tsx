import { useCallback } from 'react';
import type { LivesGroup } from '#server/contract/lives.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { listSurvivalNumbers } from '#web/charts/list-survival-numbers.ts';
import { survivalHeight, survivalOption } from '#web/charts/survival-option.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './lives.module.css';
import { countWord, sayEarlyEnd } from './say-lives.ts';

interface Props {
  groups: readonly LivesGroup[];
  confidence: number;
}

export function SurvivalFigure({ groups, confidence }: Props) {
  const draw = useCallback(
    (frame: Frame) => survivalOption(groups, mileageAxis(frame.units), frame),
    [groups],
  );
  const numbers = useCallback(
    (frame: Frame) => listSurvivalNumbers(groups, mileageAxis(frame.units)),
    [groups],
  );
  const height = useCallback((widthPx: number) => survivalHeight(groups, widthPx), [groups]);
  const told = groups.map((group) => {
    const left = group.kaplan_meier.at(-1)?.survival ?? 1;
    return `${group.name}: ${countWord(group.events, 'failure', 'failures')} of ${group.n}, ${formatPercent(left)} still running at the end`;
  });
  const axis = mileageAxis(useUnits());
  const ends = groups.flatMap((group) => sayEarlyEnd(group, axis) ?? []);
  return (
    <>
      <Chart
        title={
          <div>
            <h2>Still running</h2>
            <p className={styles.reading}>
              Share of converters that have not failed, by mileage. The shade holds{' '}
              {formatPercent(confidence)}, and a tick is a converter last seen running. Below: how many are
              under watch there.
            </p>
          </div>
        }
        label={`Share still running by mileage. ${told.join('. ')}.`}
        draw={draw}
        height={height}
        numbers={numbers}
      />
      {ends.map((words) => (
        <p key={words} className={styles.reading}>
          {words}
        </p>
      ))}
    </>
  );
}
