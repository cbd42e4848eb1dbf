import type { z } from 'zod';
import type { lives } from '#db/schema/fleet.ts';
import type { lifeInput } from '#server/contract/fleet.ts';
import { nameMode } from './name-mode.ts';

export type LifeRow = Omit<typeof lives.$inferSelect, 'changedAt'>;
export type Life = z.output<typeof lifeInput>;

/** What of a life is stored; fields left out stay as they are, null clears. */
export function mergeLife(before: LifeRow | undefined, vehicle: number, life: Life): LifeRow {
  return {
    vehicle,
    fittedKm: life.fitted_km,
    source: life.source,
    fittedAt: life.fitted_at === undefined ? (before?.fittedAt ?? null) : toDate(life.fitted_at),
    removedKm: life.removed_km === undefined ? (before?.removedKm ?? null) : life.removed_km,
    removedAt: life.removed_at === undefined ? (before?.removedAt ?? null) : toDate(life.removed_at),
    ended: life.ended === undefined ? (before?.ended ?? null) : life.ended,
    mode: life.mode === undefined ? (before?.mode ?? null) : nameMode(life.mode),
    runKm: life.run_km === undefined ? (before?.runKm ?? null) : life.run_km,
    supplier: life.supplier === undefined ? (before?.supplier ?? null) : life.supplier,
  };
}

const toDate = (text: string | null): Date | null => (text === null ? null : new Date(text));

/**
 * A vehicle's lives in order. One that has no end, or only that which the next one gave it, ends where the next begins,
 * so that lives may come in any order; two that overlap are a fault.
 */
export function orderLives(lives: readonly LifeRow[]): { lives: LifeRow[]; overlaps: [LifeRow, LifeRow][] } {
  const sorted = [...lives].sort((a, b) => a.fittedKm - b.fittedKm);
  const fittings = new Set(sorted.map(({ fittedKm }) => fittedKm));
  const overlaps: [LifeRow, LifeRow][] = [];
  const ordered = sorted.map((life, index) => {
    const next = sorted[index + 1];
    if (next === undefined) return life;
    const { removedKm, ended } = life;
    if (removedKm === null)
      return { ...life, removedKm: next.fittedKm, removedAt: life.removedAt ?? next.fittedAt };
    if (removedKm <= next.fittedKm) return life;
    if (ended === null && fittings.has(removedKm))
      return { ...life, removedKm: next.fittedKm, removedAt: next.fittedAt };
    overlaps.push([life, next]);
    return life;
  });
  return { lives: ordered, overlaps };
}
