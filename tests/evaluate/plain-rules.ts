/**
 * Three rules that a planner could follow with a spreadsheet, on raw readings at 70 % command or more: the lists that
 * the engine's has to beat.
 */
export interface PlainLists {
  /** mean slip of the last 14 days, highest first */
  level: string[];
  /** that mean less the one of the 14 days that end 30 days before, highest first */
  change: string[];
  /** straight line through all raw slip against mileage: kilometres to the limit, least first */
  line: { unit: string; kmToLimit: number | null }[];
}

const DAY_MS = 86_400_000;
const WINDOW_DAYS = 14;
const CHANGE_DAYS = 30;
const LEAST_DUTY_PCT = 70;

/** By day, so that old readings need not be kept. */
interface Track {
  limitRpm: number;
  days: Map<number, { n: number; sum: number }>;
  lastDay: number;
  lastKm: number;
  n: number;
  km: number;
  slip: number;
  kmkm: number;
  kmslip: number;
}

export interface RawReading {
  vehicle: string;
  at: string;
  odometer_km?: number;
  slip_rpm?: number;
  duty_pct?: number;
}

/** Follows the readings as they arrive and answers the lists of any moment. */
export function followPlainRules(limits: ReadonlyMap<string, number>): {
  take(reading: RawReading): void;
  list(): PlainLists;
} {
  const tracks = new Map<string, Track>();
  return {
    take({ vehicle, at, odometer_km: km, slip_rpm: slip, duty_pct: duty }) {
      if (km === undefined || slip === undefined || duty === undefined || duty < LEAST_DUTY_PCT) return;
      const track = tracks.get(vehicle) ?? newTrack(limits.get(vehicle) ?? 150);
      tracks.set(vehicle, track);
      const day = Math.floor(Date.parse(at) / DAY_MS);
      const cell = track.days.get(day) ?? { n: 0, sum: 0 };
      track.days.set(day, { n: cell.n + 1, sum: cell.sum + slip });
      if (day >= track.lastDay) {
        track.lastDay = day;
        track.lastKm = km;
      }
      track.n++;
      track.km += km;
      track.slip += slip;
      track.kmkm += km * km;
      track.kmslip += km * slip;
    },
    list() {
      const all = [...tracks];
      const level = all.map(([unit, track]) => ({ unit, score: meanOf(track, 0) / track.limitRpm }));
      const change = all.map(([unit, track]) => ({
        unit,
        score: meanOf(track, 0) - meanOf(track, CHANGE_DAYS),
      }));
      const line = all.map(([unit, track]) => ({ unit, kmToLimit: extrapolate(track) }));
      return {
        level: inOrder(level),
        change: inOrder(change),
        line: line.sort((a, b) => (a.kmToLimit ?? 1e12) - (b.kmToLimit ?? 1e12)),
      };
    },
  };
}

function newTrack(limitRpm: number): Track {
  const sums = { n: 0, km: 0, slip: 0, kmkm: 0, kmslip: 0 };
  return { limitRpm, days: new Map(), lastDay: Number.NEGATIVE_INFINITY, lastKm: 0, ...sums };
}

/** Mean slip of the vehicle's own last days, ending so many days before its last reading; NaN where there is none. */
function meanOf(track: Track, daysBefore: number): number {
  let [n, sum] = [0, 0];
  const end = track.lastDay - daysBefore;
  for (let day = end - WINDOW_DAYS + 1; day <= end; day++) {
    const cell = track.days.get(day);
    n += cell?.n ?? 0;
    sum += cell?.sum ?? 0;
  }
  return sum / n;
}

function extrapolate({ n, km, slip, kmkm, kmslip, lastKm, limitRpm }: Track): number | null {
  const variance = kmkm - (km * km) / n;
  if (n < 10 || !(variance > 0)) return null;
  const slope = (kmslip - (km * slip) / n) / variance;
  const now = slip / n + slope * (lastKm - km / n);
  if (now >= limitRpm) return 0;
  return slope > 0 ? (limitRpm - now) / slope : null;
}

const inOrder = (scored: { unit: string; score: number }[]): string[] =>
  scored
    .map(({ unit, score }) => ({ unit, score: Number.isNaN(score) ? Number.NEGATIVE_INFINITY : score }))
    .sort((a, b) => b.score - a.score)
    .map(({ unit }) => unit);
