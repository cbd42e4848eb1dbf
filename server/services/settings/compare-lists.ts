import type { MovedVehicle, Preview } from '#server/contract/settings.ts';
import { type Grade, grades } from '#server/contract/words.ts';

/** Vehicles that are named; the rest is in the counts. */
const MOST_NAMED = 50;

interface Listed {
  vehicle: number;
  unit: string;
  depot: string | null;
  rank: number;
  grade: Grade;
  /** false where it was assessed and not yet ranked: it has no place to move from */
  ranked: boolean;
}

/** What changes in the list from one ranking to another. */
export function compareLists(
  before: readonly Listed[],
  after: readonly { vehicle: number; rank: number; grade: Grade }[],
): Preview {
  const then = new Map(before.map((row) => [row.vehicle, row]));
  const moved = after.flatMap(({ vehicle, rank, grade }): MovedVehicle[] => {
    const old = then.get(vehicle);
    if (old === undefined || !old.ranked || (old.rank === rank && old.grade === grade)) return [];
    const { unit, depot, grade: gradeBefore, rank: rankBefore } = old;
    return [{ vehicle: unit, depot, grade_before: gradeBefore, grade, rank_before: rankBefore, rank }];
  });
  moved.sort(
    (a, b) =>
      Number(isRegraded(b)) - Number(isRegraded(a)) ||
      Math.abs(b.rank - b.rank_before) - Math.abs(a.rank - a.rank_before) ||
      a.rank - b.rank,
  );
  return {
    vehicles: before.length,
    before: countGrades(before),
    after: countGrades(after),
    moved: moved.slice(0, MOST_NAMED),
    regraded: moved.filter(isRegraded).length,
    reranked: moved.filter((one) => one.rank !== one.rank_before).length,
  };
}

const isRegraded = ({ grade, grade_before: before }: MovedVehicle): boolean => grade !== before;

function countGrades(rows: readonly { grade: Grade }[]): Record<Grade, number> {
  const counts = Object.fromEntries(grades.map((grade) => [grade, 0])) as Record<Grade, number>;
  for (const { grade } of rows) counts[grade] += 1;
  return counts;
}
