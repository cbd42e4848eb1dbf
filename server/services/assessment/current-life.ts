import type { AssessedVehicle } from '#db/queries/read-assessed-vehicles.ts';
import { numberLives } from '#server/services/stretches/number-lives.ts';

export interface CurrentLife {
  number: number;
  /** null where nobody registered it */
  fittedKm: number | null;
  fittedAtMs: number | null;
  /** what the converter had run before it was fitted, where that is on record */
  runKm?: number;
}

/** A fitting may be registered so far ahead of the last reading, km: the gateway has not sent since the work. */
const AHEAD_KM = 1_000;

/**
 * The life that the vehicle runs on now: that of its newest stretch, or the last one registered where that was fitted
 * since. One that lies far ahead, or at a date to come, is planned or mistyped and does not count yet.
 */
export function currentLife(
  { life, lives }: Pick<AssessedVehicle, 'life' | 'lives'>,
  nowKm: number | null,
  nowMs: number,
): CurrentLife {
  const inOrder = [...lives].sort((a, b) => a.fittedKm - b.fittedKm);
  const seen = life ?? (nowKm === null ? 1 : numberLives(lives)(nowKm));
  const last = inOrder.at(-1);
  const isFitted =
    last !== undefined &&
    nowKm !== null &&
    last.fittedKm <= nowKm + AHEAD_KM &&
    (last.fittedAt === null || Date.parse(last.fittedAt) <= nowMs);
  const number = isFitted ? Math.max(seen, inOrder.length) : seen;
  const own = inOrder[number - 1];
  return {
    number,
    fittedKm: own?.fittedKm ?? null,
    fittedAtMs: own?.fittedAt == null ? null : Date.parse(own.fittedAt),
    ...(own?.runKm == null ? {} : { runKm: own.runKm }),
  };
}
