/**
 * Middle of values that are sorted already.
 *
 * The middle one of an odd count, the mean of the two middle ones of an even count.
 *
 * @param sorted rising values, any unit
 * @param count  how many of them count, from the first
 * @returns middle; NaN where none count
 * Source: any textbook. Edges: values beyond the count play no part. Errors: none; the order is not checked.
 * @example middleOfSorted([1, 3, 9, 99], 3) // 3
 */
export function middleOfSorted(sorted: ArrayLike<number>, count: number): number {
  if (count === 0) return Number.NaN;
  const upper = sorted[count >> 1] ?? Number.NaN;
  return count % 2 === 1 ? upper : ((sorted[(count >> 1) - 1] ?? Number.NaN) + upper) / 2;
}
