import { type PlacedLife, sayKm } from './placed-life.ts';

export type FoundLife =
  /** the life that ran then, null where none is known; and the mileage, as it is on record where it is there */
  { life: PlacedLife | null; km: number } | { fault: string };

/** Nearer than this a change on record is more likely the same one with another reading of the odometer. */
const NEAR_KM = 500;

/** The life that a change of the converter at this mileage ends. */
export function findLifeAt(lives: readonly PlacedLife[], odometerKm: number, sameKm: number): FoundLife {
  const onRecord = changesOf(lives.filter(({ line }) => line === null));
  const same = onRecord.find((km) => Math.abs(km - odometerKm) < sameKm);
  const km = same ?? odometerKm;
  if (same === undefined) {
    const near = onRecord.find((one) => Math.abs(one - odometerKm) < NEAR_KM);
    if (near !== undefined)
      return {
        fault: `is ${sayKm(odometerKm)}, and a change at ${sayKm(near)} is on record. Where it is the same one, give that mileage; where it is another, enter it with a file of lives`,
      };
  }
  const life = lives
    .filter(({ fittedKm }) => fittedKm < km)
    .reduce<PlacedLife | null>(
      (last, one) => (last === null || one.fittedKm > last.fittedKm ? one : last),
      null,
    );
  if (life === null) return { life, km };
  const { removedKm, fittedKm, line } = life;
  if (removedKm === null || removedKm === km) return { life, km };
  const where = line === null ? 'on record' : `by line ${line}`;
  if (removedKm < km)
    return {
      fault: `is ${sayKm(km)}, but the life fitted at ${sayKm(fittedKm)} ended at ${sayKm(removedKm)} (${where}), and none is on record that ran after it`,
    };
  const wasOnlyFollowed = life.ended === null && lives.some((other) => other.fittedKm === removedKm);
  if (wasOnlyFollowed) return { life, km };
  return {
    fault: `is ${sayKm(km)}, but the life fitted at ${sayKm(fittedKm)} ran on to ${sayKm(removedKm)} (${where})`,
  };
}

/** Mileages at which a converter came or went. */
const changesOf = (lives: readonly PlacedLife[]): number[] =>
  lives.flatMap(({ fittedKm, removedKm }) => [
    ...(fittedKm > 0 ? [fittedKm] : []),
    ...(removedKm === null ? [] : [removedKm]),
  ]);
