import type { Database } from '#db/client.ts';
import { findSealedStretches, type StretchKey } from '#db/queries/find-sealed-stretches.ts';
import { renumberLife } from '#db/queries/renumber-life.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';

/**
 * Stretches of a vehicle within a span of time that must stay as they are, since readings of theirs have been dropped.
 * Only the number of their life follows what is registered now, by the middle of their kilometres.
 */
export async function sealStretches(
  transaction: Database,
  vehicle: number,
  fromAt: Date,
  toAt: Date,
  lifeAt: (odometerKm: number) => number,
): Promise<StretchKey[]> {
  const sealed = await findSealedStretches(transaction, vehicle, fromAt, toAt);
  const kept: StretchKey[] = [];
  for (const key of sealed) {
    const life = lifeAt((key.stretch + 0.5) * STRETCH_KM);
    const isMoved = life !== key.life && (await renumberLife(transaction, vehicle, key, life));
    kept.push(isMoved ? { ...key, life } : key);
  }
  return kept;
}
