const DAY_MS = 86_400_000;
/** Months ahead of this one that have their place already: nothing has to be made when the clock strikes. */
const AHEAD = 2;
/** So long after its end a month still takes in what gateways send late. */
const LATE_DAYS = 3;

const toMonth = (at: Date): string => at.toISOString().slice(0, 7);

/** First moment of a month that is `months` later than `month`, YYYY-MM. */
export const startOfMonth = (month: string, months = 0): Date =>
  new Date(Date.UTC(Number(month.slice(0, 4)), Number(month.slice(5)) - 1 + months, 1));

/** This month and those made ahead. */
export const listCurrentMonths = (now: Date): string[] =>
  Array.from({ length: AHEAD + 1 }, (_, i) => toMonth(startOfMonth(toMonth(now), i)));

export function tellMonth(month: string, now: Date): 'ahead' | 'open' | 'over' {
  if (startOfMonth(month) > now) return 'ahead';
  return startOfMonth(month, 1).getTime() + LATE_DAYS * DAY_MS > now.getTime() ? 'open' : 'over';
}

/** The day on which retention drops a month; null where all is kept. */
export const dropDayOf = (month: string, keepMonths: number): string | null =>
  keepMonths === 0
    ? null
    : startOfMonth(month, keepMonths + 1)
        .toISOString()
        .slice(0, 10);
