import { useCallback, useMemo, useState } from 'react';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { Chart } from '#web/charts/chart.tsx';
import { drawMileage } from '#web/charts/draw-mileage.ts';
import type { Frame } from '#web/charts/frame.ts';
import { listMileageNumbers } from '#web/charts/list-mileage-numbers.ts';
import { layMileage } from '#web/charts/mileage-layout.ts';
import { type Assessed, type KmRange, type MileageView, viewMileage } from '#web/charts/mileage-view.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from './mileage-figure.module.css';
import { MileageOverlay } from './mileage-overlay.tsx';
import { MileageTools } from './mileage-tools.tsx';
import { PlatformLink } from './platform-link.tsx';
import { patchSearchedRange, readSearchedRange } from './searched-range.ts';
import { useShownRange } from './use-shown-range.ts';
import type { VehicleState } from './use-vehicle-state.ts';

interface Props {
  series: VehicleSeries;
  assessment: Assessed | null;
  sentence: string;
  state: VehicleState;
}

export function MileageFigure(props: Props) {
  const { series, assessment, state } = props;
  const { band = null, life = null } = state.search;
  const view = useMemo(
    () => viewMileage(series, assessment, { band, life }),
    [series, assessment, band, life],
  );
  if (view === null) return <NoStretches series={series} />;
  return <DrawnMileage {...props} view={view} />;
}

function DrawnMileage({ view, assessment, sentence, state }: Props & { view: MileageView }) {
  const { from, to } = state.search;
  const target = useMemo(
    () => readSearchedRange(view, from === undefined || to === undefined ? {} : { from, to }),
    [from, to, view],
  );
  const { shown, show } = useShownRange(target);
  const [cursorKm, setCursorKm] = useState<number | null>(null);
  const { change } = state;

  const onRange = useCallback(
    (range: KmRange, isDone: boolean) => {
      if (isDone) change(patchSearchedRange(view, range));
      else show(range);
    },
    [show, change, view],
  );
  // From the newest address, not from what is drawn: that still moves when the next key comes.
  const onMove = useCallback(
    (move: (range: KmRange) => KmRange) =>
      change((before) => patchSearchedRange(view, move(readSearchedRange(view, before)))),
    [change, view],
  );
  const draw = useCallback((frame: Frame) => drawMileage(view, shown, frame), [view, shown]);
  const onBand = (band: string) => change({ band: band === state.search.band ? undefined : band });
  const label = `Slip against mileage. ${sentence} Arrow keys read stretch by stretch, shift and arrows move along, plus and minus zoom, 0 shows all, n lists the numbers.`;

  const shownEvents = view.series.fleet_events.filter((event) => event.odometer_km !== null);

  return (
    <Chart
      label={label}
      title={
        <div className={styles.head}>
          <h2 className={styles.title}>Slip against mileage</h2>
          <p className={styles.reading}>{sayHowToRead(view)}</p>
          {shownEvents.length > 0 && (
            <p className={styles.reading}>
              The whole platform moved by {shownEvents.map(sayStep).join(' and ')}; that is taken out.{' '}
              <PlatformLink platform={assessment?.platform ?? null}>What the platform did</PlatformLink>
            </p>
          )}
        </div>
      }
      draw={draw}
      height={(widthPx) => layMileage(view, widthPx).heightPx}
      numbers={(frame) => listMileageNumbers(view, shown, frame.units)}
      tools={<MileageTools view={view} target={target} state={state} onRange={onRange} />}
      overlay={(frame) => (
        <MileageOverlay
          view={view}
          range={shown}
          target={target}
          frame={frame}
          label={label}
          cursorKm={cursorKm}
          onCursor={setCursorKm}
          onRange={onRange}
          onMove={onMove}
          onBand={onBand}
        />
      )}
    />
  );
}

function sayHowToRead(view: MileageView): string {
  const dots = 'A dot is one stretch, larger with more readings.';
  if (!view.isReference || view.series.forecast === null) return dots;
  const isPast = view.series.forecast.km_to_limit.p90 === 0;
  return `${dots} The shades ahead hold 50, 80 and 95 % of what is expected${isPast ? '.' : '; the bar on the limit is the distance to it.'}`;
}

const sayStep = ({ at, size_rpm }: VehicleSeries['fleet_events'][number]): string =>
  `${size_rpm > 0 ? '+' : ''}${formatWhole(size_rpm)} rpm on ${formatUtcDate(at)}`;

function NoStretches({ series }: { series: VehicleSeries }) {
  const { usable, set_aside } = series.readings;
  return (
    <div className={styles.empty}>
      <h2 className={styles.title}>Slip against mileage</h2>
      <p>
        {usable + set_aside === 0
          ? 'No reading has come from this vehicle yet. The chart begins with the first one.'
          : `No usable reading yet: all ${set_aside} so far were set aside. Below is why.`}
      </p>
    </div>
  );
}
