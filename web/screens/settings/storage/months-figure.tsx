import { useCallback, useMemo } from 'react';
import type { StorageReport } from '#server/contract/storage.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { listMonthNumbers, monthsHeightPx, monthsOption } from '#web/charts/months-option.ts';
import { formatMonthAndYear } from '#web/format/format-day.ts';
import head from '#web/ui/screen-head.module.css';
import { listMonthBins } from './list-month-bins.ts';

/** Readings and their size by month. */
export function MonthsFigure({ report: { months, retention } }: { report: StorageReport }) {
  const bins = useMemo(() => listMonthBins(months), [months]);
  const next = retention.next?.month ?? null;
  const draw = useCallback((frame: Frame) => monthsOption(bins, next, frame), [bins, next]);
  const numbers = useCallback(() => listMonthNumbers(bins), [bins]);
  const [first] = bins;
  const last = bins.at(-1);
  if (first === undefined || last === undefined) return null;
  const span = `${formatMonthAndYear(first.month)} to ${formatMonthAndYear(last.month)}`;
  return (
    <Chart
      title={
        <div>
          <h2>Readings by month</h2>
          <p className={head.reading}>
            By the month in which they were taken, UTC. Where the bar of readings is paler, their number is an
            estimate of the database.
          </p>
        </div>
      }
      label={`Readings and their size on disk by month, ${span}.`}
      draw={draw}
      height={monthsHeightPx}
      numbers={numbers}
    />
  );
}
