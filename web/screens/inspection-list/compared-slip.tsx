import { useCallback, useMemo } from 'react';
import { useComparedSeries } from '#web/api/use-compared-series.ts';
import { Chart } from '#web/charts/chart.tsx';
import { comparedOption, listComparedNumbers } from '#web/charts/compared-option.ts';
import type { Frame } from '#web/charts/frame.ts';
import { readCompared, spanOf } from '#web/charts/read-compared.ts';
import { formatKm } from '#web/format/format-km.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './comparison.module.css';

const heightPx = 250;

/** The slip of the compared vehicles in one picture. */
export function ComparedSlip({ vehicles }: { vehicles: readonly string[] }) {
  const series = useComparedSeries(vehicles);
  const units = useUnits();
  // Marks go by the place among the compared, so a vehicle that has no series keeps its own.
  const all = useMemo(
    () =>
      vehicles.map((vehicle, i) => {
        const one = series[i];
        return one === undefined
          ? { vehicle, limitRpm: 0, points: [], bendKm: null, line: [] }
          : readCompared(one);
      }),
    [vehicles, series],
  );
  const isDrawn = all.some(({ points }) => points.length > 0);
  const draw = useCallback((frame: Frame) => (isDrawn ? comparedOption(all, frame) : {}), [all, isDrawn]);
  const numbers = useCallback((frame: Frame) => listComparedNumbers(all, frame.units), [all]);
  const title = isDrawn ? `Slip over the last ${formatKm(spanOf(all), units)}` : '\u00a0';
  return (
    <div className={styles.slip}>
      <Chart
        title={<h3>{title}</h3>}
        label={`Slip at the reference point over the last kilometres of ${vehicles.join(', ')}, on common axes.`}
        draw={draw}
        numbers={numbers}
        height={heightPx}
      />
    </div>
  );
}
