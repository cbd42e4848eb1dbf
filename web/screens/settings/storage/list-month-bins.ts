import type { StoredMonth } from '#server/contract/storage.ts';
import type { MonthBin } from '#web/charts/months-option.ts';

const longest = 120;

/** Months of a chart without a gap, the newest of them; those that stand alone are named beside it. */
export function listMonthBins(months: readonly StoredMonth[]): MonthBin[] {
  const shown = months.filter(({ rows, alone }) => rows > 0 && !alone);
  const [first] = shown;
  const last = shown.at(-1);
  if (first === undefined || last === undefined) return [];
  const found = new Map(shown.map((one) => [one.month, one]));
  const bins: MonthBin[] = [];
  for (let month = first.month; month <= last.month; month = monthAfter(month))
    bins.push({ month, stored: found.get(month) ?? null });
  return bins.slice(-longest);
}

function monthAfter(month: string): string {
  const [year = 0, number = 0] = month.split('-').map(Number);
  return new Date(Date.UTC(year, number, 1)).toISOString().slice(0, 7);
}
