import type { RandomSource } from './random-source.ts';

export const DAY_MS = 86_400_000;
/** Vehicles drive between these hours, UTC. */
const START_HOUR = 5;
const END_HOUR = 21;

/** True km of one vehicle over its days in the fleet. */
export class DriveCalendar {
  /** Day of the fleet on which this vehicle's history begins. */
  readonly firstDay: number;
  /** Odometer at the start of each own day, and at the end of the last. */
  readonly startKm: Float64Array;
  private readonly fromMs: number;

  constructor(fromMs: number, firstDay: number, entryKm: number, dayKm: Float64Array) {
    this.fromMs = fromMs;
    this.firstDay = firstDay;
    this.startKm = new Float64Array(dayKm.length + 1);
    this.startKm[0] = entryKm;
    for (let day = 0; day < dayKm.length; day++)
      this.startKm[day + 1] = (this.startKm[day] ?? 0) + (dayKm[day] ?? 0);
  }

  get days(): number {
    return this.startKm.length - 1;
  }

  get entryKm(): number {
    return this.startKm[0] ?? 0;
  }

  get endKm(): number {
    return this.startKm[this.days] ?? 0;
  }

  msAtStartOf(day: number): number {
    return this.fromMs + (this.firstDay + day) * DAY_MS;
  }

  kmAt(ms: number): number {
    const days = (ms - this.msAtStartOf(0)) / DAY_MS;
    if (days <= 0) return this.entryKm;
    if (days >= this.days) return this.endKm;
    const day = Math.floor(days);
    const start = this.startKm[day] ?? 0;
    const share = ((days - day) * 24 - START_HOUR) / (END_HOUR - START_HOUR);
    return start + Math.min(1, Math.max(0, share)) * ((this.startKm[day + 1] ?? start) - start);
  }

  /** When the vehicle first has driven this far; not asked for km outside the history. */
  msAt(km: number): number {
    let low = 0;
    let high = this.days - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.startKm[middle + 1] ?? 0) >= km) high = middle;
      else low = middle + 1;
    }
    const start = this.startKm[low] ?? 0;
    const length = (this.startKm[low + 1] ?? start) - start;
    const share = length > 0 ? (km - start) / length : 0;
    return this.msAtStartOf(low) + (START_HOUR + share * (END_HOUR - START_HOUR)) * 3_600_000;
  }
}

/** Km of each day: days of work, weekends, parked weeks. */
export function drawDayKm(
  days: number,
  firstWeekday: number,
  kmPerDay: number,
  isBus: boolean,
  random: RandomSource,
): Float64Array {
  const dayKm = new Float64Array(days);
  let parkedUntil = -1;
  for (let day = 0; day < days; day++) {
    if (random.happens(1 / 170)) parkedUntil = day + random.whole(5, random.happens(0.15) ? 50 : 16);
    const weekday = (firstWeekday + day) % 7;
    const works = weekday === 0 ? (isBus ? 0.45 : 0.08) : weekday === 6 ? (isBus ? 0.7 : 0.35) : 0.94;
    const drives = random.happens(works) && day > parkedUntil;
    const km = kmPerDay * Math.exp(0.25 * random.normal());
    dayKm[day] = drives ? Math.min(km, 900) : 0;
  }
  return dayKm;
}
