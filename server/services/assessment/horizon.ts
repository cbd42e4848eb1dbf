/** Planning horizon where none is asked for, km. */
export const DEFAULT_HORIZON_KM = 5_000;

/** Chance within a horizon, from the stored chances: straight between them, constant beyond. */
export function chanceAt(chances: readonly (readonly [km: number, chance: number])[], km: number): number {
  let before: readonly [number, number] = [0, 0];
  for (const point of chances) {
    if (km <= point[0]) {
      const along = (km - before[0]) / (point[0] - before[0]);
      return before[1] + along * (point[1] - before[1]);
    }
    before = point;
  }
  return before[1];
}
