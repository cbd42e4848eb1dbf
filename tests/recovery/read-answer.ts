/** The one item of a list. */
export function only<T>(items: readonly T[]): T {
  const [item] = items;
  if (item === undefined || items.length > 1) throw new Error(`one was expected, not ${items.length}`);
  return item;
}

/** The first mileage named in a sentence, km. */
export const kmOf = (text: string): number =>
  Number(/([\d,]+) km/.exec(text)?.[1]?.replaceAll(',', '') ?? Number.NaN);

const DAY_MS = 86_400_000;

export const daysBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / DAY_MS;
