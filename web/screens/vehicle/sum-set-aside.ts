import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { type SetAsideReason, setAsideReasons } from '#server/contract/words.ts';

export interface ReasonCount {
  reason: SetAsideReason;
  n: number;
  /** One number a month, in the order of `months`. */
  byMonth: number[];
}

/** Counts by reason and month, most first; every month between the first and the last has its place. */
export function sumSetAside(entries: VehicleSeries['set_aside']): {
  months: string[];
  reasons: ReasonCount[];
} {
  const months = listMonths(entries.map((one) => one.month));
  const reasons = setAsideReasons.flatMap((reason) => {
    const mine = entries.filter((one) => one.reason === reason);
    if (mine.length === 0) return [];
    const byMonth = months.map((month) =>
      mine.filter((one) => one.month === month).reduce((sum, one) => sum + one.n, 0),
    );
    return [{ reason, n: mine.reduce((sum, one) => sum + one.n, 0), byMonth }];
  });
  return { months, reasons: reasons.toSorted((a, b) => b.n - a.n) };
}

/** Months are written '2026-03'. */
function listMonths(present: readonly string[]): string[] {
  const sorted = [...present].sort();
  const first = sorted[0];
  const last = sorted.at(-1);
  if (first === undefined || last === undefined) return [];
  const months: string[] = [];
  let [year = 0, month = 1] = first.split('-').map(Number);
  for (let name = first; name <= last && months.length < 600; ) {
    months.push(name);
    month += 1;
    if (month > 12) {
      month = 1;
      year += 1;
    }
    name = `${year}-${String(month).padStart(2, '0')}`;
  }
  return months;
}
