import type { GradeChange } from '#db/queries/digest/grade-changes.ts';
import type { Grade } from '#server/contract/words.ts';

export interface NewHold {
  key: number;
  unit: string;
  depot: string | null;
  /** when it went on hold, the last time */
  at: Date;
  /** its grade before the span; null where it had none */
  before: Grade | null;
  why: unknown;
}

/**
 * Vehicles that were not on hold before a span and were at its end, the newest first. One that went on hold and came off
 * again within it is none.
 */
export function findNewHolds(changes: readonly GradeChange[]): NewHold[] {
  const byVehicle = new Map<number, GradeChange[]>();
  for (const change of changes) byVehicle.set(change.key, [...(byVehicle.get(change.key) ?? []), change]);
  return [...byVehicle.values()]
    .flatMap((own): NewHold[] => {
      const [first, last] = [own[0], own.at(-1)];
      if (first === undefined || last?.after !== 'hold' || first.before === 'hold') return [];
      const { key, unit, depot, at, why } = last;
      return [{ key, unit, depot, at, before: first.before as Grade | null, why }];
    })
    .sort((a, b) => b.at.getTime() - a.at.getTime());
}
