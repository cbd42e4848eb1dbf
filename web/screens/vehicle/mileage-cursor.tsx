import type { BandSeries } from '#server/contract/vehicle.ts';
import type { Frame } from '#web/charts/frame.ts';
import { type MileageLayout, type Rect, type scaleKm, scaleRpm } from '#web/charts/mileage-layout.ts';
import type { MileageView } from '#web/charts/mileage-view.ts';
import { type MileageReadout, nearestPoint } from '#web/charts/read-mileage.ts';
import styles from './mileage-overlay.module.css';

interface Props {
  view: MileageView;
  layout: MileageLayout;
  scale: ReturnType<typeof scaleKm>;
  frame: Frame;
  readout: MileageReadout;
}

const sameStretchKm = 300;

/** A hair line through all plots at one mileage, rings on its stretches, and the figures beside it. */
export function MileageCursor({ view, layout, scale, frame, readout }: Props) {
  const x = scale.toPx(readout.km);
  const right = layout.main.left + layout.main.width;
  if (x < layout.main.left - 1 || x > right + 1) return null;
  const last = layout.setAside.at(-1)?.rect ?? layout.strips.at(-1) ?? layout.main;
  const rings = [
    ring(view.shown, readout.km, layout.main, view.lowRpm, view.topRpm),
    ...view.strips.map((strip, i) => {
      const rect = layout.strips[i];
      return rect === undefined ? null : ring(strip, readout.km, rect, 0, view.stripTopRpm);
    }),
  ];
  const isLeftHalf = x < layout.main.left + layout.main.width / 2;
  return (
    <>
      <svg className={styles.cursor} width={frame.widthPx} height={layout.heightPx} aria-hidden="true">
        <line x1={x} x2={x} y1={layout.main.top} y2={last.top + last.height} />
        {rings.map((y, i) =>
          // biome-ignore lint/suspicious/noArrayIndexKey: one ring a plot, always in the order of the plots
          y === null ? null : <circle key={i} cx={x} cy={y} r={i === 0 ? 6 : 4.5} />,
        )}
      </svg>
      <div
        className={styles.readout}
        style={{
          top: layout.main.top + 4,
          ...(isLeftHalf ? { left: x + 12 } : { right: frame.widthPx - x + 12 }),
        }}
        aria-hidden="true"
      >
        <div className={styles.readoutTitle}>{readout.title}</div>
        {readout.lines.map(({ name, value }) => (
          <div key={name}>
            <span className={styles.readoutName}>{name}</span>
            <span>{value}</span>
          </div>
        ))}
      </div>
    </>
  );
}

function ring(band: BandSeries, km: number, rect: Rect, low: number, top: number): number | null {
  const point = nearestPoint(band, km);
  if (point === undefined || Math.abs(point.odometer_km - km) > sameStretchKm) return null;
  const y = scaleRpm(rect, low, top)(point.slip_rpm);
  return Math.min(Math.max(y, rect.top), rect.top + rect.height);
}
