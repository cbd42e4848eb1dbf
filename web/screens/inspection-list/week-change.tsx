import { formatWhole } from '#web/format/format-number.ts';
import { type Change, sayPlaces } from './say-change.ts';

/** How far a vehicle has moved in the list since a week ago; nothing where it has not. */
export function PlacesMoved({
  places,
  className,
}: Pick<Change, 'places'> & { className: string | undefined }) {
  if (places === 0) return null;
  const words = `${sayPlaces(places)} since a week ago`;
  return (
    <span className={className} title={words}>
      <span aria-hidden="true">
        {places > 0 ? '↑' : '↓'} {formatWhole(Math.abs(places))}
      </span>
      <span className="only-spoken">{words}</span>
    </span>
  );
}

/** The grade of a week ago, where it was another. */
export function GradeBefore({ was, className }: Pick<Change, 'was'> & { className: string | undefined }) {
  if (was === null) return null;
  return (
    <span className={className} title={`was ${was} a week ago`}>
      was {was}
    </span>
  );
}
