import { type Database, rawClient } from '#db/client.ts';
import type { StretchKey } from './find-sealed-stretches.ts';

/** Counts a stretch to another life of its vehicle, unless that life has one of the same kilometres. */
export async function renumberLife(
  transaction: Database,
  vehicle: number,
  { life, stretch }: StretchKey,
  newLife: number,
): Promise<boolean> {
  const client = rawClient(transaction);
  const moved = await client`
    update stretch_totals set life = ${newLife}
    where vehicle = ${vehicle} and life = ${life} and stretch = ${stretch} and not exists (
      select from stretch_totals where vehicle = ${vehicle} and life = ${newLife} and stretch = ${stretch})
    returning stretch`;
  if (moved.length === 0) return false;
  await client`
    update stretches set life = ${newLife}
    where vehicle = ${vehicle} and life = ${life} and stretch = ${stretch}`;
  return true;
}
