import type { ReactNode } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { scaleForHorizon } from '#web/ui/rail-geometry.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { BookingLink } from './booking-link.tsx';
import { listFacts } from './list-facts.ts';
import { sayBookingInLine, sayNoBooking } from './say-booking.ts';
import { findChange, sayPlaces } from './say-change.ts';
import { sayWeekAgo } from './say-week-ago.ts';
import type { Found } from './use-compared.ts';

export interface ComparedFact {
  name: string;
  /** by vehicle; missing where the vehicle is not known */
  values: ReadonlyMap<string, ReactNode>;
}

/** What is compared, line by line, the same for every vehicle. */
export function useComparedFacts(
  vehicles: readonly string[],
  found: Found,
  horizonKm: number,
): ComparedFact[] {
  const units = useUnits();
  const names = useFleetNames();
  const scaleKm = scaleForHorizon(horizonKm, units);
  const now = new Date();
  const rows = vehicles.flatMap((vehicle) => {
    const row = found.get(vehicle);
    return row === undefined || typeof row === 'string' ? [] : [row];
  });
  const line = (name: string, draw: (row: RankingRow) => ReactNode): ComparedFact => ({
    name,
    values: new Map(rows.map((row) => [row.vehicle, draw(row)])),
  });
  const figures = rows.map((row) => listFacts(row, units, now, { withCost: true, names }));
  return [
    line('Rank', (row) => {
      const moved = sayPlaces(findChange(row).places);
      return `${formatWhole(row.rank)}${moved === '' ? '' : `, ${moved} since a week ago`}`;
    }),
    line('Distance to limit', (row) => (
      <>
        <DistanceRail
          distance={row.km_to_limit}
          grade={row.grade}
          horizonKm={horizonKm}
          scaleKm={scaleKm}
          reason={row.missing[0] ?? null}
          showsReason={false}
        />
        <RailScale horizonKm={horizonKm} scaleKm={scaleKm} />
      </>
    )),
    line('Booking', (row) =>
      row.booking === null ? (
        sayNoBooking(row)
      ) : (
        <BookingLink booking={row.booking}>
          {sayBookingInLine(row.booking, row.depot, names.depot)}
        </BookingLink>
      ),
    ),
    line('A week ago', sayWeekAgo),
    ...(figures[0] ?? []).map(({ name }, i) =>
      line(
        name === 'Distance to limit' ? 'As figures' : name,
        (row) => figures[rows.indexOf(row)]?.[i]?.value,
      ),
    ),
    line('Reasons', (row) => <Lines items={row.reasons} />),
    ...(rows.some(({ missing }) => missing.length > 0)
      ? [line('Missing', (row) => <Lines items={row.missing} />)]
      : []),
  ];
}

const Lines = ({ items }: { items: readonly string[] }) => (
  <ol>
    {items.map((item) => (
      <li key={item}>{item}</li>
    ))}
  </ol>
);
