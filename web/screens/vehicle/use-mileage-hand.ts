import { type PointerEvent, useCallback, useRef, useState } from 'react';
import type { MileageLayout, scaleKm } from '#web/charts/mileage-layout.ts';
import type { KmRange, MileageView } from '#web/charts/mileage-view.ts';
import { fitRange, panBy, zoomAbout } from '#web/charts/zoom-range.ts';

interface Hand {
  view: MileageView;
  layout: MileageLayout;
  scale: ReturnType<typeof scaleKm>;
  range: KmRange;
  whole: KmRange;
  snap: (km: number) => number;
  onCursor: (km: number | null) => void;
  onRange: (range: KmRange, isDone: boolean) => void;
  onBand: (band: string) => void;
}

interface Grip {
  startX: number;
  startRange: KmRange;
  kmPerPx: number;
  kind: 'press' | 'select' | 'pan' | 'scrub';
}

const dragFromPx = 6;
const least = { selectPx: 12 };

/** Mouse: drag to come closer, with shift to move along. Touch: slide to read, two fingers to zoom. */
export function useMileageHand(hand: Hand) {
  const { view, layout, scale, range, whole, snap, onCursor, onRange, onBand } = hand;
  const grip = useRef<Grip | null>(null);
  const fingers = useRef(new Map<number, number>());
  const pinch = useRef<{ distance: number; range: KmRange; km: number } | null>(null);
  const [selection, setSelection] = useState<{ left: number; width: number } | null>(null);
  const [isOverStrip, setOverStrip] = useState(false);
  const kmPerPx = (range.toKm - range.fromKm) / layout.main.width;
  const right = layout.main.left + layout.main.width;
  const clampX = (x: number) => Math.min(Math.max(x, layout.main.left), right);

  const stripAt = (y: number): string | null => {
    const index = layout.strips.findIndex((rect) => y >= rect.top - 14 && y <= rect.top + rect.height + 4);
    return view.strips[index]?.band ?? null;
  };

  const onPointerDown = (event: PointerEvent<HTMLElement>) => {
    const { x } = place(event);
    if (event.pointerType === 'mouse' && event.button !== 0) return;
    fingers.current.set(event.pointerId, x);
    if (fingers.current.size === 2) {
      const [a = 0, b = 0] = [...fingers.current.values()];
      pinch.current = { distance: Math.max(Math.abs(a - b), 20), range, km: scale.toKm((a + b) / 2) };
      grip.current = null;
      return;
    }
    grip.current = { startX: x, startRange: range, kmPerPx, kind: 'press' };
    if (event.pointerType === 'mouse') event.currentTarget.setPointerCapture(event.pointerId);
  };

  const onPointerMove = (event: PointerEvent<HTMLElement>) => {
    const { x, y } = place(event);
    if (fingers.current.has(event.pointerId)) fingers.current.set(event.pointerId, x);
    const two = pinch.current;
    if (two !== null && fingers.current.size === 2) {
      const [a = 0, b = 0] = [...fingers.current.values()];
      onRange(zoomAbout(two.range, whole, two.km, two.distance / Math.max(Math.abs(a - b), 20)), false);
      return;
    }
    const held = grip.current;
    if (held !== null && held.kind === 'press' && Math.abs(x - held.startX) > dragFromPx)
      held.kind = event.pointerType !== 'mouse' ? 'scrub' : event.shiftKey ? 'pan' : 'select';
    if (held?.kind === 'select') {
      const from = clampX(Math.min(held.startX, x));
      setSelection({ left: from, width: clampX(Math.max(held.startX, x)) - from });
    } else if (held?.kind === 'pan') {
      onRange(panBy(held.startRange, whole, (held.startX - x) * held.kmPerPx), false);
      return;
    }
    setOverStrip(held === null && stripAt(y) !== null);
    if (event.pointerType === 'mouse' || held !== null)
      onCursor(x < layout.main.left - 4 || x > right + 4 ? null : snap(scale.toKm(clampX(x))));
  };

  const onPointerUp = (event: PointerEvent<HTMLElement>) => {
    const { x, y } = place(event);
    fingers.current.delete(event.pointerId);
    if (pinch.current !== null) {
      if (fingers.current.size === 0) {
        pinch.current = null;
        onRange(range, true);
      }
      return;
    }
    const held = grip.current;
    grip.current = null;
    setSelection(null);
    if (held === null) return;
    if (held.kind === 'select' && Math.abs(x - held.startX) >= least.selectPx) {
      const ends = [scale.toKm(clampX(held.startX)), scale.toKm(clampX(x))];
      onRange(fitRange({ fromKm: Math.min(...ends), toKm: Math.max(...ends) }, whole), true);
    } else if (held.kind === 'pan') onRange(range, true);
    else if (held.kind === 'press') {
      const band = stripAt(y);
      if (band !== null) onBand(band);
      else onCursor(snap(scale.toKm(clampX(x))));
    }
  };

  const onPointerCancel = (event: PointerEvent<HTMLElement>) => {
    fingers.current.delete(event.pointerId);
    pinch.current = null;
    grip.current = null;
    setSelection(null);
  };

  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);
  const latest = useRef({ range, scale, whole, onRange, kmPerPx });
  latest.current = { range, scale, whole, onRange, kmPerPx };
  const onWheel = useCallback((event: WheelEvent) => {
    const { range, scale, whole, onRange, kmPerPx } = latest.current;
    const isZoom = event.ctrlKey || event.metaKey;
    const isAlong = Math.abs(event.deltaX) > Math.abs(event.deltaY);
    if (!isZoom && !isAlong) return;
    event.preventDefault();
    const next = isZoom
      ? zoomAbout(range, whole, scale.toKm(event.offsetX), Math.exp(event.deltaY * 0.003))
      : panBy(range, whole, event.deltaX * kmPerPx);
    onRange(next, false);
    clearTimeout(rest.current);
    rest.current = setTimeout(() => latest.current.onRange(latest.current.range, true), 250);
  }, []);

  return {
    selection,
    isOverStrip,
    onWheel,
    handlers: {
      onPointerDown,
      onPointerMove,
      onPointerUp,
      onPointerCancel,
      onPointerLeave: (event: PointerEvent<HTMLElement>) => {
        if (event.pointerType === 'mouse' && grip.current === null) onCursor(null);
        setOverStrip(false);
      },
      onDoubleClick: () => onRange(whole, true),
    },
  };
}

function place(event: PointerEvent<HTMLElement>): { x: number; y: number } {
  const box = event.currentTarget.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}
