import { type Database, rawClient } from '#db/client.ts';
import type { RebuildWindow } from './find-rebuild-windows.ts';

export interface StretchKey {
  life: number;
  stretch: number;
}

/**
 * Stretches of one vehicle within a span of time that cannot be built again, since retention has dropped readings of
 * theirs: the first one is gone, or fewer are left than were counted.
 */
export function findSealedStretches(
  db: Database,
  { vehicle, fromAt, toAt }: RebuildWindow,
): Promise<StretchKey[]> {
  return rawClient(db)<StretchKey[]>`
    select life, stretch from stretch_totals t
    where vehicle = ${vehicle} and first_at <= ${toAt} and last_at >= ${fromAt} and (
      not exists (select from readings r where r.vehicle = ${vehicle} and r.at = t.first_at)
      or (select count(*) from readings r
          where r.vehicle = ${vehicle} and r.at between t.first_at and t.last_at)
        < t.usable + coalesce((select sum(reason.value::integer)
            from jsonb_each(t.set_aside) month, jsonb_each_text(month.value) reason), 0))
    order by life, stretch`;
}
