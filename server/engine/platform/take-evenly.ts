/** What vehicles have in common is known well enough from so many of them. Own choice. */
export const MOST_LEARNED = 400;

/**
 * At most so many of a list, evenly spread over it.
 *
 * @param list any
 * @param most how many at the most, a whole number
 * @returns the list itself where it is no longer, else every (length / most)-th, the first included
 * Source: systematic sampling, any textbook. Edges: an empty list stays empty. Errors: none.
 * @example takeEvenly([1, 2, 3, 4, 5, 6], 3) // [1, 3, 5]
 */
export function takeEvenly<T>(list: readonly T[], most: number): readonly T[] {
  if (list.length <= most) return list;
  return Array.from({ length: most }, (_, i) => list[Math.floor((i * list.length) / most)]).filter(
    (one) => one !== undefined,
  );
}
