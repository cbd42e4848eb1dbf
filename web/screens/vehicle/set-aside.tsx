import { useMemo } from 'react';
import { setAsideWords } from '#server/contract/set-aside-words.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import styles from './set-aside.module.css';
import { sumSetAside } from './sum-set-aside.ts';

/** What was not used and why: every reading stays stored. */
export function SetAside({ series }: { series: VehicleSeries }) {
  const { months, reasons } = useMemo(() => sumSetAside(series.set_aside), [series.set_aside]);
  const { usable, set_aside } = series.readings;
  const all = usable + set_aside;
  const most = Math.max(1, ...reasons.flatMap((one) => one.byMonth));
  return (
    <section className={styles.section}>
      <h3>Set aside</h3>
      <p className={styles.lead}>
        {all === 0
          ? 'No readings yet.'
          : `${formatWhole(set_aside)} of ${formatWhole(all)} readings (${formatPercent(set_aside / all)}) are stored but not compared: the clutch was not in steady lockup.`}
      </p>
      {reasons.length > 0 && (
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">reason</th>
              <th scope="col" data-kind="figure">
                readings
              </th>
              <th scope="col" className={styles.months}>
                <span>{months[0]}</span>
                <span>{months.at(-1)}</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {reasons.map(({ reason, n, byMonth }) => (
              <tr key={reason}>
                <th scope="row">{setAsideWords[reason]}</th>
                <td data-kind="figure">{formatWhole(n)}</td>
                <td>
                  <MonthBars months={months} byMonth={byMonth} most={most} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

const barsHeight = 22;

function MonthBars({ months, byMonth, most }: { months: string[]; byMonth: number[]; most: number }) {
  const words = months.map((month, i) => `${month}: ${byMonth[i] ?? 0}`).join(', ');
  return (
    <svg
      className={styles.bars}
      viewBox={`0 0 ${months.length} ${barsHeight}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={`By month: ${words}`}
    >
      {byMonth.map((n, i) => {
        const height = (n / most) * (barsHeight - 1);
        return (
          <rect key={months[i]} x={i + 0.12} width={0.76} y={barsHeight - height} height={height}>
            <title>{`${months[i]}: ${n}`}</title>
          </rect>
        );
      })}
    </svg>
  );
}
