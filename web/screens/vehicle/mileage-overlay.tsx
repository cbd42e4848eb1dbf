import { useEffect, useRef } from 'react';
import type { Frame } from '#web/charts/frame.ts';
import { layMileage, scaleKm } from '#web/charts/mileage-layout.ts';
import type { KmRange, MileageView } from '#web/charts/mileage-view.ts';
import { nearestPoint, readMileage } from '#web/charts/read-mileage.ts';
import { MileageCursor } from './mileage-cursor.tsx';
import styles from './mileage-overlay.module.css';
import { useMileageHand } from './use-mileage-hand.ts';
import { useMileageKeys } from './use-mileage-keys.ts';

interface Props {
  view: MileageView;
  /** what is drawn, and where it moves to */
  range: KmRange;
  target: KmRange;
  frame: Frame;
  label: string;
  cursorKm: number | null;
  onCursor: (km: number | null) => void;
  /** While the hand moves, and once it rests. */
  onRange: (range: KmRange, isDone: boolean) => void;
  /** From where the range is to where it shall be. */
  onMove: (move: (range: KmRange) => KmRange) => void;
  onBand: (band: string) => void;
}

/** Lies over the mileage chart: pointer, touch and keys, and the figures at the cursor. */
export function MileageOverlay(props: Props) {
  const { view, range, target, frame, label, cursorKm, onCursor, onRange, onMove, onBand } = props;
  const area = useRef<HTMLDivElement>(null);
  const layout = layMileage(view, frame.widthPx);
  const scale = scaleKm(layout, range);
  const snap = (km: number): number =>
    km > view.nowKm && view.isReference && view.series.forecast !== null
      ? Math.min(km, view.series.forecast.points.at(-1)?.odometer_km ?? km)
      : (nearestPoint(view.shown, km)?.odometer_km ?? km);
  const hand = useMileageHand({
    layout,
    scale,
    range,
    whole: view.whole,
    snap,
    view,
    onCursor,
    onRange,
    onBand,
  });
  const onKeyDown = useMileageKeys({ view, target, cursorKm, onCursor, onMove });
  const readout = cursorKm === null ? null : readMileage(view, cursorKm, frame.units);

  const { onWheel } = hand;
  useEffect(() => {
    const node = area.current;
    if (node === null) return;
    // React's wheel listener is passive: it could not keep the page from scrolling while the chart zooms.
    node.addEventListener('wheel', onWheel, { passive: false });
    return () => node.removeEventListener('wheel', onWheel);
  }, [onWheel]);

  return (
    <>
      <div
        ref={area}
        className={styles.area}
        role="application"
        aria-label={label}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the chart takes keys of its own, as its label says
        tabIndex={0}
        data-over-strip={hand.isOverStrip}
        onKeyDown={onKeyDown}
        {...hand.handlers}
      >
        {hand.selection !== null && (
          <span
            className={styles.selection}
            style={{
              left: hand.selection.left,
              width: hand.selection.width,
              top: layout.main.top,
              height: layout.heightPx - layout.main.top - 26,
            }}
          />
        )}
        {readout !== null && (
          <MileageCursor view={view} layout={layout} scale={scale} frame={frame} readout={readout} />
        )}
      </div>
      <p className="only-spoken" aria-live="polite">
        {readout !== null &&
          `${readout.title}: ${readout.lines.map((one) => `${one.name} ${one.value}`).join(', ')}`}
      </p>
    </>
  );
}
