export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/**
 * The first of some places that is within the bounds and covers nothing that is taken; null where there is none. What
 * was placed is taken from then on.
 */
export function placeFree<T extends Box>(places: readonly T[], bounds: Box, taken: Box[]): T | null {
  const free = places.find(
    (place) =>
      place.left >= bounds.left &&
      place.right <= bounds.right &&
      place.top >= bounds.top &&
      place.bottom <= bounds.bottom &&
      taken.every((one) => !overlaps(place, one)),
  );
  if (free === undefined) return null;
  taken.push(free);
  return free;
}
