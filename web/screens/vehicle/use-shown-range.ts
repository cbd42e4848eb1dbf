import { useCallback, useEffect, useRef, useState } from 'react';
import type { KmRange } from '#web/charts/mileage-view.ts';
import { useMedia } from '#web/ui/use-media.ts';

const moveMs = 220;

/**
 * The range on the screen: follows the address by a short move that keeps the eye on what it looked at, and the
 * hand without delay while it drags.
 */
export function useShownRange(target: KmRange) {
  const [shown, setShown] = useState(target);
  const current = useRef(target);
  const isStill = useMedia('(prefers-reduced-motion: reduce)');
  const { fromKm, toKm } = target;

  const show = useCallback((range: KmRange) => {
    current.current = range;
    setShown(range);
  }, []);

  useEffect(() => {
    const start = current.current;
    const end = { fromKm, toKm };
    if (Math.abs(start.fromKm - fromKm) < 1 && Math.abs(start.toKm - toKm) < 1) return;
    if (isStill) return show(end);
    let frame = 0;
    const began = performance.now();
    const step = (now: number) => {
      const share = Math.min(1, Math.max(0, (now - began) / moveMs));
      const eased = 1 - (1 - share) ** 3;
      show({
        fromKm: start.fromKm + (end.fromKm - start.fromKm) * eased,
        toKm: start.toKm + (end.toKm - start.toKm) * eased,
      });
      if (share < 1) frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [fromKm, toKm, isStill, show]);

  return { shown, show };
}
