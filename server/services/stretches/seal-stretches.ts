import type { Database } from '#db/client.ts';
import type { RebuildWindow } from '#db/queries/find-rebuild-windows.ts';
import { findSealedStretches, type StretchKey } from '#db/queries/find-sealed-stretches.ts';
import type { KnownTotal } from '#db/queries/read-totals-within.ts';
import { renumberLife } from '#db/queries/renumber-life.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';

/** Moments of a vehicle's readings around its window, in order. */
type Moments = readonly { atMs: number }[];

/**
 * Stretches of a vehicle within a window that must stay as they are, since readings of theirs have been dropped. Told from
 * the readings at hand, where they cover the stretches.
 */
export async function findSealed(
  transaction: Database,
  window: RebuildWindow,
  totals: readonly KnownTotal[],
  readings: Moments,
): Promise<readonly StretchKey[]> {
  const fromMs = Math.min(window.fromAt.getTime(), readings[0]?.atMs ?? Number.POSITIVE_INFINITY);
  const toMs = Math.max(window.toAt.getTime(), readings.at(-1)?.atMs ?? Number.NEGATIVE_INFINITY);
  const isCovered = totals.every(({ firstAtMs, lastAtMs }) => firstAtMs >= fromMs && lastAtMs <= toMs);
  if (!isCovered) return findSealedStretches(transaction, window);
  return totals.filter((total) => {
    const first = countBefore(readings, total.firstAtMs);
    const end = countBefore(readings, total.lastAtMs + 1);
    return readings[first]?.atMs !== total.firstAtMs || end - first < total.readings;
  });
}

/** How many readings lie before a moment. */
function countBefore(readings: Moments, ms: number): number {
  let low = 0;
  let high = readings.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((readings[middle]?.atMs ?? 0) < ms) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Only the number of a sealed stretch's life follows what is registered now, by the middle of its kilometres. */
export async function renumberSealed(
  transaction: Database,
  vehicle: number,
  sealed: readonly StretchKey[],
  lifeAt: (odometerKm: number) => number,
): Promise<{ kept: StretchKey[]; isMoved: boolean }> {
  const kept: StretchKey[] = [];
  let isMoved = false;
  for (const { life: before, stretch } of sealed) {
    const life = lifeAt((stretch + 0.5) * STRETCH_KM);
    const moves =
      life !== before && (await renumberLife(transaction, vehicle, { life: before, stretch }, life));
    isMoved ||= moves;
    kept.push({ life: moves ? life : before, stretch });
  }
  return { kept, isMoved };
}
