import type { KeyboardEvent } from 'react';
import type { KmRange, MileageView } from '#web/charts/mileage-view.ts';
import { isSame, panBy, zoomAbout } from '#web/charts/zoom-range.ts';

interface Keys {
  view: MileageView;
  range: KmRange;
  cursorKm: number | null;
  onCursor: (km: number | null) => void;
  onRange: (range: KmRange, isDone: boolean) => void;
}

const stepKm = 500;

/** Arrows step from stretch to stretch and on into the forecast; shift moves the range, + and - zoom, 0 goes back. */
export function useMileageKeys({ view, range, cursorKm, onCursor, onRange }: Keys) {
  const whole = view.whole;

  const stepTo = (km: number) => {
    onCursor(km);
    const span = range.toKm - range.fromKm;
    if (km < range.fromKm) onRange(panBy(range, whole, km - range.fromKm - span * 0.2), true);
    if (km > range.toKm) onRange(panBy(range, whole, km - range.toKm + span * 0.2), true);
  };

  return (event: KeyboardEvent<HTMLElement>) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const span = range.toKm - range.fromKm;
    const about = cursorKm ?? Math.min(view.nowKm, (range.fromKm + range.toKm) / 2);
    const stops = listStops(view);
    const isForward = event.key === 'ArrowRight';
    switch (event.key) {
      case 'ArrowLeft':
      case 'ArrowRight':
        if (event.shiftKey) onRange(panBy(range, whole, (isForward ? 1 : -1) * span * 0.2), true);
        else {
          const from = cursorKm ?? (isForward ? range.fromKm : range.toKm);
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
        onRange(zoomAbout(range, whole, about, 0.6), true);
        break;
      case '-':
        onRange(zoomAbout(range, whole, about, 1 / 0.6), true);
        break;
      case '0':
        onRange(whole, true);
        break;
      case 'Escape':
        if (cursorKm === null && isSame(range, whole)) return;
        if (cursorKm !== null) onCursor(null);
        else onRange(whole, true);
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
