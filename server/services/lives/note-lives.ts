import { endsUnwatched, isRunUnknown } from './observe-lives.ts';
import type { FleetLife, RecordedLife, VehicleRecord } from './vehicle-record.ts';

/** What must be known of the lives that are looked at, as sentences: where they may look shorter or longer than they are. */
export function noteLives(lives: readonly FleetLife[], watched: readonly VehicleRecord[]): string[] {
  const find = (is: (life: RecordedLife, record: VehicleRecord) => boolean) =>
    new Set(
      watched.flatMap((record) =>
        record.lives
          .filter((life) => is(life, record))
          .map(({ number }) => nameLife({ ...record, life: number })),
      ),
    );
  const unwatched = find((life, record) => endsUnwatched(record, life));
  const takenOut = find((life, record) => life.ended === 'preventive' && !endsUnwatched(record, life));
  const unknown = find(isRunUnknown);
  const countIn = (names: ReadonlySet<string>, which = lives) =>
    which.filter((life) => names.has(nameLife(life))).length;
  const early = countIn(
    takenOut,
    lives.filter(({ event }) => !event),
  );
  const later = countIn(unwatched);
  const used = countIn(unknown);
  const notes: string[] = [];
  if (early > 0)
    notes.push(
      `${early} of the lives ${early === 1 ? 'was' : 'were'} taken out before failing and ${early === 1 ? 'counts' : 'count'} as running on. Where those were about to fail, lives look longer than they are.`,
    );
  if (later > 0)
    notes.push(
      `${later} of the lives ended well after the last reading of ${later === 1 ? 'its' : 'their'} vehicle and ${later === 1 ? 'counts' : 'count'} as running up to that reading: lives that still run are followed no further either.`,
    );
  if (used > 0)
    notes.push(
      used === 1
        ? '1 of the lives is of a used converter, counted from its fitting: what it had run before is not known, so lives look shorter than they are.'
        : `${used} of the lives are of used converters, counted from their fitting: what they had run before is not known, so lives look shorter than they are.`,
    );
  return notes;
}

const nameLife = ({ vehicle, life }: { vehicle: number; life: number }) => `${vehicle} ${life}`;
