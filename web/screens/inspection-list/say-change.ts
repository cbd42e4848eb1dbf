import type { RankingRow } from '#server/contract/ranking.ts';
import type { Grade } from '#server/contract/words.ts';
import { formatWhole } from '#web/format/format-number.ts';

export interface Change {
  /** places up the list since a week ago; negative for down, 0 where that says nothing */
  places: number;
  /** the grade a week ago, where it was another */
  was: Grade | null;
}

export const noChange: Change = { places: 0, was: null };

const drifting: readonly Grade[] = ['hold', 'book', 'watch'];

/** What is worth showing of a week: places of vehicles that do not drift move with every other's. */
export function findChange({
  rank,
  grade,
  week_ago,
}: Pick<RankingRow, 'rank' | 'grade' | 'week_ago'>): Change {
  if (week_ago === null) return noChange;
  const was = week_ago.grade === grade ? null : week_ago.grade;
  // Ranks of two horizons do not compare.
  if (week_ago.rank === null) return { places: 0, was };
  const counts = was !== null || drifting.includes(grade);
  return { places: counts ? week_ago.rank - rank : 0, was };
}

/** 'up 12 places', 'down 1 place'; '' where it stayed. */
export function sayPlaces(places: number): string {
  if (places === 0) return '';
  const size = Math.abs(places);
  return `${places > 0 ? 'up' : 'down'} ${formatWhole(size)} ${size === 1 ? 'place' : 'places'}`;
}

/** For a line of its own: 'up 12 places since a week ago, was watch'; '' where nothing changed. */
export function sayChange({ places, was }: Change): string {
  const moved = places === 0 ? [] : [`${sayPlaces(places)} since a week ago`];
  return [...moved, ...(was === null ? [] : [places === 0 ? `was ${was} a week ago` : `was ${was}`])].join(
    ', ',
  );
}
