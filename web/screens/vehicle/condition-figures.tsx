import { type ReactNode, useCallback } from 'react';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { Chart } from '#web/charts/chart.tsx';
import { drawDuty, listDutyNumbers } from '#web/charts/draw-duty.ts';
import { drawShares, listShareNumbers, type Shares } from '#web/charts/draw-shares.ts';
import { shareOfFluid, shareOfLoad } from '#web/charts/exposure-shares.ts';
import type { Frame } from '#web/charts/frame.ts';
import { sayNoSignal } from '#web/charts/say-no-signal.ts';
import type { Units } from '#web/format/units.ts';
import styles from './condition-figures.module.css';
import { ExposureLines } from './exposure-lines.tsx';

interface Props {
  series: VehicleSeries;
  /** what leads on from slip by command */
  children?: ReactNode;
}

/** Under which command, temperature and load the vehicle slips and runs. */
export function ConditionFigures({ series, children }: Props) {
  const { by_duty, exposure, reference } = series;
  const drawByDuty = useCallback(
    (frame: Frame) => (by_duty === null ? {} : drawDuty(by_duty, reference.duty_pct, frame)),
    [by_duty, reference],
  );
  return (
    <>
      <section className={styles.duty}>
        {by_duty === null ? (
          <>
            <h3>Slip by command, then and now</h3>
            <p className={styles.none}>Too few usable readings to compare then with now.</p>
          </>
        ) : (
          <Chart
            title={<h3>Slip by command, then and now</h3>}
            label="Slip against commanded duty in the healthy part of the life and in the last kilometres"
            draw={drawByDuty}
            height={340}
            numbers={({ units }) => listDutyNumbers(by_duty, units)}
          />
        )}
        {children}
      </section>
      <section className={styles.exposure}>
        {exposure.fluid_c === null ? (
          <Unknown title="Fluid temperature" words={sayNoSignal(series, 'fluid_c')} />
        ) : (
          <Exposure title="Fluid temperature" read={(units) => shareOfFluid(series, units)} series={series} />
        )}
        {exposure.load_pct === null ? (
          <Unknown title="Load" words={sayNoSignal(series, 'load_pct')} />
        ) : (
          <Exposure title="Load" read={() => shareOfLoad(series)} series={series} />
        )}
        <ExposureLines exposure={exposure} />
      </section>
    </>
  );
}

function Unknown({ title, words }: { title: string; words: string }) {
  return (
    <>
      <h3>{title}</h3>
      <p className={styles.none}>{words}</p>
    </>
  );
}

function Exposure({
  title,
  read,
  series,
}: {
  title: string;
  read: (units: Units) => Shares;
  series: VehicleSeries;
}) {
  const draw = useCallback(
    (frame: Frame) => drawShares((title === 'Load' ? shareOfLoad : shareOfFluid)(series, frame.units), frame),
    [title, series],
  );
  return (
    <Chart
      title={<h3>{title}</h3>}
      label={`Share of usable readings by ${title.toLowerCase()}`}
      draw={draw}
      height={150}
      numbers={({ units }) => listShareNumbers(read(units))}
    />
  );
}
