import type { KeyboardEvent } from 'react';
import type { KmRange, MileageView } from '#web/charts/mileage-view.ts';
import { isSame, panBy, zoomAbout } from '#web/charts/zoom-range.ts';

interface Keys {
  view: MileageView;
  target: KmRange;
  cursorKm: number | null;
  onCursor: (km: number | null) => void;
  /** Keys may come faster than the address is drawn: each moves from where the one before led. */
  onMove: (move: (range: KmRange) => KmRange) => void;
}

const stepKm = 500;

/** Arrows step from stretch to stretch and on into the forecast; shift moves the range, + and - zoom, 0 goes back. */
export function useMileageKeys({ view, target, cursorKm, onCursor, onMove }: Keys) {
  const whole = view.whole;

  const stepTo = (km: number) => {
    onCursor(km);
    onMove((range) => {
      const margin = (range.toKm - range.fromKm) * 0.2;
      if (km < range.fromKm) return panBy(range, whole, km - range.fromKm - margin);
      if (km > range.toKm) return panBy(range, whole, km - range.toKm + margin);
      return range;
    });
  };
  const pan = (share: number) => onMove((range) => panBy(range, whole, share * (range.toKm - range.fromKm)));
  const zoom = (factor: number) =>
    onMove((range) => {
      const about = cursorKm ?? Math.min(view.nowKm, (range.fromKm + range.toKm) / 2);
      return zoomAbout(range, whole, about, factor);
    });

  return (event: KeyboardEvent<HTMLElement>) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const stops = listStops(view);
    const isForward = event.key === 'ArrowRight';
    switch (event.key) {
      case 'ArrowLeft':
      case 'ArrowRight':
        if (event.shiftKey) pan(isForward ? 0.2 : -0.2);
        else {
          const from = cursorKm ?? (isForward ? target.fromKm : target.toKm);
          const next = isForward ? stops.find((km) => km > from + 1) : stops.findLast((km) => km < from - 1);
          if (next !== undefined) stepTo(next);
        }
        break;
      case 'Home':
        if (stops[0] !== undefined) stepTo(stops[0]);
        break;
      case 'End':
        stepTo(view.nowKm);
        break;
      case '+':
      case '=':
        zoom(0.6);
        break;
      case '-':
        zoom(1 / 0.6);
        break;
      case '0':
        onMove(() => whole);
        break;
      case 'Escape':
        if (cursorKm === null && isSame(target, whole)) return;
        if (cursorKm !== null) onCursor(null);
        else onMove(() => whole);
        break;
      default:
        return;
    }
    event.preventDefault();
    event.stopPropagation();
  };
}

/** Where the cursor can stand: each stretch shown, then steps into the forecast. */
function listStops(view: MileageView): number[] {
  const seen = view.shown.points.map((point) => point.odometer_km).toSorted((a, b) => a - b);
  const end = view.isReference ? (view.series.forecast?.points.at(-1)?.odometer_km ?? 0) : 0;
  const ahead: number[] = [];
  for (let km = view.nowKm + stepKm; km <= Math.min(end, view.whole.toKm); km += stepKm) ahead.push(km);
  return [...seen, ...ahead];
}
