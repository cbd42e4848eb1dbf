import type { FleetLife, VehicleRecord } from './vehicle-record.ts';

/** What must be known of the lives that are looked at, as sentences: where they may look shorter or longer than they are. */
export function noteLives(lives: readonly FleetLife[], watched: readonly VehicleRecord[]): string[] {
  const takenOut = new Set(
    watched.flatMap(({ vehicle, lives: own }) =>
      own.filter(({ ended }) => ended === 'preventive').map(({ number }) => `${vehicle} ${number}`),
    ),
  );
  const early = lives.filter(
    ({ event, vehicle, life }) => !event && takenOut.has(`${vehicle} ${life}`),
  ).length;
  const used = lives.filter(({ source }) => source === 'used').length;
  const notes: string[] = [];
  if (early > 0)
    notes.push(
      `${early} of the lives ${early === 1 ? 'was' : 'were'} taken out before failing and ${early === 1 ? 'counts' : 'count'} as running on. Where those were about to fail, lives look longer than they are.`,
    );
  if (used > 0)
    notes.push(
      used === 1
        ? '1 of the lives is of a used converter, counted from its fitting: what it had run before is not known, so lives look shorter than they are.'
        : `${used} of the lives are of used converters, counted from their fitting: what they had run before is not known, so lives look shorter than they are.`,
    );
  return notes;
}
