import { DAY_MS } from './drive-calendar.ts';
import type { SimulatedVehicle } from './plan-vehicle.ts';
import type { RandomSource } from './random-source.ts';

/** What the fleet tells about converters of one vehicle, and when. Nothing where nobody tells. */
export function reportLives(
  vehicle: SimulatedVehicle,
  toMs: number,
  random: RandomSource,
): { atMs: number; life: object }[] {
  const { calendar, lives, unit } = vehicle;
  const reports: { atMs: number; life: object }[] = [];
  lives.forEach((life, i) => {
    if (!life.reported) return;
    const fitted = { vehicle: unit, fitted_km: Math.round(life.fittedKm), source: life.fittedAs };
    const before = lives[i - 1];
    if (before === undefined) {
      reports.push({ atMs: calendar.msAtStartOf(0), life: fitted });
      return;
    }
    const fittedMs = calendar.msAtStartOf(life.fromDay);
    const fittedAt = new Date(fittedMs).toISOString();
    const atMs = fittedMs + random.whole(0, 10) * DAY_MS;
    if (atMs >= toMs) return;
    // An unknown fitting cannot be closed: the shop then tells of the new converter only.
    if (before.reported || before.fittedAs === 'original') {
      const closed = {
        vehicle: unit,
        fitted_km: Math.round(before.fittedKm),
        source: before.fittedAs,
        removed_km: Math.round(life.fittedKm),
        removed_at: fittedAt,
        ended: before.ended,
        ...(before.ended === 'failed' ? { mode: 'clutch slipping' } : {}),
      };
      reports.push({ atMs, life: closed });
    }
    reports.push({ atMs, life: { ...fitted, fitted_at: fittedAt } });
  });
  return reports;
}
