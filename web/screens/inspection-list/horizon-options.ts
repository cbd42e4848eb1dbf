import { kmFromMiles } from '#server/contract/units.ts';
import { formatKm } from '#web/format/format-km.ts';
import { noFigure } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';

const roundDistances = {
  km: [1000, 2000, 3000, 5000, 10_000, 20_000],
  mi: [500, 1000, 2000, 3000, 6000, 12_000],
};

/** Round distances in the reader's unit, and the one in force where it is none of them. */
export function horizonOptions(currentKm: number | null, units: Units): { value: string; label: string }[] {
  const inKm = roundDistances[units.distance].map((distance) =>
    units.distance === 'mi' ? Math.round(kmFromMiles(distance)) : distance,
  );
  if (currentKm === null) return [{ value: '', label: noFigure }];
  const all = inKm.includes(currentKm) ? inKm : [...inKm, currentKm];
  return all.toSorted((a, b) => a - b).map((km) => ({ value: String(km), label: formatKm(km, units) }));
}
