const DAY_MS = 86_400_000;
/** Nobody knows a fleet for longer. */
const LONGEST_DAYS = 3653;

export interface DiskCourse {
  now: Date;
  freeBytes: number;
  bytesPerDay: number;
  keepMonths: number;
  /** what retention is to drop, with its day */
  drops: readonly { on: string; bytes: number }[];
}

/**
 * The day on which the disk is full where data grow as they do, and retention drops what it is to drop; null where that is
 * not within ten years. Months of which nothing is stored yet are counted as if they were kept for good until the first
 * of them is dropped; from then on as much goes as comes.
 */
export function forecastFull({ now, freeBytes, bytesPerDay, keepMonths, drops }: DiskCourse): string | null {
  if (bytesPerDay <= 0) return null;
  const due = new Map<string, number>();
  for (const { on, bytes } of drops) due.set(on, (due.get(on) ?? 0) + bytes);
  const balanced =
    keepMonths === 0
      ? Number.POSITIVE_INFINITY
      : Date.UTC(now.getUTCFullYear(), now.getUTCMonth() + keepMonths + 1, 1);
  let free = freeBytes;
  for (let days = 1; days <= LONGEST_DAYS; days++) {
    const at = new Date(now.getTime() + days * DAY_MS);
    if (at.getTime() >= balanced) return null;
    const day = at.toISOString().slice(0, 10);
    free += (due.get(day) ?? 0) - bytesPerDay;
    if (free <= 0) return day;
  }
  return null;
}
