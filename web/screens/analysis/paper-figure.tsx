import { useCallback } from 'react';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import type { LifeFitKind } from '#web/charts/life-paper.ts';
import { listPaperNumbers } from '#web/charts/list-paper-numbers.ts';
import { weibullPlotOption } from '#web/charts/weibull-plot-option.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import head from '#web/ui/screen-head.module.css';
import type { LivesFigureProps } from './figure-props.ts';

interface Props extends LivesFigureProps {
  kind: LifeFitKind;
  onKind: (kind: LifeFitKind) => void;
}

const heightPx = 340;
const kinds: readonly { value: LifeFitKind; label: string }[] = [
  { value: 'weibull', label: 'Weibull' },
  { value: 'lognormal', label: 'lognormal' },
];

export function PaperFigure({ groups, confidence, axisOf, source, kind, onKind }: Props) {
  const draw = useCallback(
    (frame: Frame) => weibullPlotOption(groups, axisOf(frame.units), { kind, confidence }, frame),
    [groups, kind, confidence, axisOf],
  );
  const numbers = useCallback(
    (frame: Frame) => listPaperNumbers(groups, axisOf(frame.units), { kind, confidence }),
    [groups, kind, confidence, axisOf],
  );
  const fitted = groups.filter((group) => group[kind] !== null);
  const bounds = fitted.length > 1 ? 'Between the thin lines of a group lie' : 'The shade holds';
  return (
    <Chart
      title={
        <div>
          <h2>{kind === 'weibull' ? 'Weibull plot' : 'Lognormal plot'}</h2>
          <p className={head.reading}>
            Paper on which the fit is a straight line: marks that follow it bear it out.
            {fitted.length > 0 &&
              ` ${bounds} ${formatPercent(confidence)}; where the line is faint nothing has been seen yet.`}
          </p>
        </div>
      }
      tools={<ChoiceGroup legend="Fit" name="fit" options={kinds} value={kind} onChoose={onKind} />}
      label={`Failures on ${kind === 'weibull' ? 'Weibull' : 'lognormal'} probability paper, with the fit of ${fitted.length === 0 ? 'no group' : fitted.map(({ name }) => name).join(', ')}.`}
      draw={draw}
      height={heightPx}
      numbers={numbers}
      {...source}
    />
  );
}
