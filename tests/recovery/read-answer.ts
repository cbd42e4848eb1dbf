/** The one item of a list. */
export function only<T>(items: readonly T[]): T {
  const [item] = items;
  if (item === undefined || items.length > 1) throw new Error(`one was expected, not ${items.length}`);
  return item;
}

/** The first mileage named in a sentence, km. */
export const kmOf = (text: string): number =>
  Number(/([\d,]+) km/.exec(text)?.[1]?.replaceAll(',', '') ?? Number.NaN);

/** The first date named in a text. */
export const dateOf = (text: string): string => /\d{4}-\d\d-\d\d/.exec(text)?.[0] ?? '';

const DAY_MS = 86_400_000;

export const daysBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / DAY_MS;
