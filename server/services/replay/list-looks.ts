import type { StatedChance } from '#server/engine/replay/check-calibration.ts';
import type { ReplayPlan } from './replay-plan.ts';
import type { ReplayedVehicle } from './replayed-vehicle.ts';

export const LOOK_EVERY_DAYS = 7;
const AT_ONCE_KM = 1;

/**
 * What was stated of each vehicle a week apart, and what came, until anybody could know it. Between slip at the limit and the
 * third stretch there nobody could: what was stated then came at once. A fault that a shop found before the limit ends the
 * following: the chance is of the limit or a failure, and neither has come.
 */
export function listLooks(
  { dayEndMs }: Pick<ReplayPlan, 'dayEndMs'>,
  vehicles: readonly Pick<ReplayedVehicle, 'days' | 'courses'>[],
): StatedChance[] {
  return vehicles.flatMap(({ days, courses }, vehicle) =>
    dayEndMs.flatMap((endMs, day) => {
      const [km, chance] = [days.km[day] ?? Number.NaN, days.statedChance[day] ?? Number.NaN];
      const course = courses.find(({ life }) => life === days.life[day]);
      if (day % LOOK_EVERY_DAYS !== 0 || Number.isNaN(km) || Number.isNaN(chance) || course === undefined)
        return [];
      const { event, lastKm } = course;
      if (event !== null && event.knownMs < endMs) return [];
      const failed = event !== null && event.what !== 'confirmed';
      const drivenKm = Math.max((event?.km ?? lastKm) - km, failed ? AT_ONCE_KM : 0);
      return drivenKm > 0 ? [{ vehicle, chance, drivenKm, failed }] : [];
    }),
  );
}
