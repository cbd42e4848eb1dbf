/** Mean precision at each wanted item of a list, best first; NaN where nothing is wanted. */
export function averagePrecision<T>(list: readonly T[], isWanted: (item: T) => boolean): number {
  let hits = 0;
  let sum = 0;
  list.forEach((item, i) => {
    if (!isWanted(item)) return;
    hits++;
    sum += hits / (i + 1);
  });
  return sum / hits;
}
