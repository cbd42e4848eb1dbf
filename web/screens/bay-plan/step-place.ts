import type { Grid } from './lay-out-grid.ts';
import type { Place } from './plan-search.ts';

export type Direction = 'left' | 'right' | 'up' | 'down';

/** The next open place in a direction; days that are over, closed days and bays that are not there are skipped. */
export function stepPlace(grid: Grid, place: Place, direction: Direction): Place | null {
  const isOpen = ({ depot, day, bay }: Place): boolean => {
    const found = grid.depots.find((one) => one.depot.id === depot)?.depot;
    return (
      found !== undefined &&
      day >= found.today &&
      bay <= (found.days.find((one) => one.day === day)?.bays ?? 0)
    );
  };
  return listPlaces(grid, place, direction).find(isOpen) ?? null;
}

/** All places in a direction, the nearest first. */
function listPlaces({ days, rows }: Grid, place: Place, direction: Direction): Place[] {
  const isAhead = direction === 'right' || direction === 'down';
  if (direction === 'left' || direction === 'right') {
    const at = days.findIndex(({ day }) => day === place.day);
    const next = isAhead ? days.slice(at + 1) : days.slice(0, Math.max(0, at)).toReversed();
    return next.map(({ day }) => ({ ...place, day }));
  }
  const bays = rows.flatMap(({ depot, bay }) => (bay === null ? [] : [{ depot: depot.id, bay }]));
  const at = bays.findIndex(({ depot, bay }) => depot === place.depot && bay === place.bay);
  const next = isAhead ? bays.slice(at + 1) : bays.slice(0, Math.max(0, at)).toReversed();
  return next.map((bay) => ({ ...bay, day: place.day }));
}

/** Where something begins that has no place yet: the first open one of its depot, else of any. */
export function findStart(grid: Grid, depot: string | null): Place | null {
  const own = grid.depots.filter((one) => one.depot.id === depot);
  for (const { depot: one } of [...own, ...grid.depots])
    for (const { day, bays } of one.days)
      if (bays > 0 && day >= one.today) return { depot: one.id, day, bay: 1 };
  return null;
}
