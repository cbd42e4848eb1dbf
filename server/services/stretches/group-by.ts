/** Rows by a number of theirs, such as their vehicle, in their order. */
export function groupBy<T>(rows: readonly T[], numberOf: (row: T) => number): Map<number, T[]> {
  const groups = new Map<number, T[]>();
  for (const row of rows) {
    const group = groups.get(numberOf(row));
    if (group === undefined) groups.set(numberOf(row), [row]);
    else group.push(row);
  }
  return groups;
}
