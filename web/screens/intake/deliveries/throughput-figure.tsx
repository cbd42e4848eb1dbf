import { useCallback, useMemo } from 'react';
import type { Throughput } from '#server/contract/intake.ts';
import { useThroughput } from '#web/api/use-intake.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import {
  listThroughputNumbers,
  type ThroughputBin,
  throughputHeightPx,
  throughputOption,
} from '#web/charts/throughput-option.ts';
import { formatMoment, formatWeek } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import head from '#web/ui/screen-head.module.css';

interface Props {
  span: 'hours' | 'days';
  onSpan: (span: 'hours' | 'days') => void;
}

const spans = [
  { value: 'hours', label: '48 hours' },
  { value: 'days', label: '60 days' },
] as const;

const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
const hourOf = new Intl.DateTimeFormat('en-GB', { weekday: 'short', hour: '2-digit', minute: '2-digit' });

/** What became of lines in the last hours or days. */
export function ThroughputFigure({ span, onSpan }: Props) {
  const { data, isError, error, refetch } = useThroughput(zone);
  const bins = useMemo(() => (data === undefined ? [] : listBins(data, span)), [data, span]);
  const caption = span === 'hours' ? 'Lines by hour' : 'Lines by day';
  const draw = useCallback((frame: Frame) => throughputOption(bins, frame), [bins]);
  const numbers = useCallback(() => listThroughputNumbers(bins, caption), [bins, caption]);
  if (isError && data === undefined) return <ProblemNote error={error} onRetry={() => void refetch()} />;
  const stored = bins.reduce((sum, bin) => sum + bin.stored, 0);
  const refused = bins.reduce((sum, bin) => sum + bin.refused, 0);
  return (
    <Chart
      title={
        <div>
          <h2>Throughput</h2>
          <p className={head.reading}>
            Lines by the {span === 'hours' ? 'hour' : 'day'} in which their delivery began. Each strip has a
            scale of its own.
          </p>
        </div>
      }
      tools={<ChoiceGroup legend="Show" name="span" options={spans} value={span} onChoose={onSpan} />}
      label={`${caption}: ${formatWhole(stored)} stored and ${formatWhole(refused)} refused in the last ${span === 'hours' ? '48 hours' : '60 days'}.`}
      draw={draw}
      height={throughputHeightPx}
      numbers={numbers}
    />
  );
}

const listBins = ({ hours, days }: Throughput, span: Props['span']): ThroughputBin[] =>
  span === 'hours'
    ? hours.map(({ from, ...counts }) => ({
        name: hourOf.format(new Date(from)),
        longName: formatMoment(from),
        ...counts,
      }))
    : days.map(({ day, ...counts }) => ({ name: formatWeek(day), longName: formatWeek(day), ...counts }));
