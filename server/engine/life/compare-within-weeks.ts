/** What one subject showed in one week. */
export interface WeekMean {
  /** numbers from 0 of the subject, of the group that it belongs to (a vehicle), and of the week */
  subject: number;
  group: number;
  week: number;
  mean: number;
  /** positive: readings, or way */
  weight: number;
}

const MOST_ROUNDS = 500;
/** Of the size of the means: far below what could be told apart. */
const STILL = 1e-10;

/**
 * Means of subjects as if each had been watched in the same weeks.
 *
 * mean_iw = a_i + b_w by weighted least squares, sum(weight_i * a_i) = 0; answer a_i + m, m the weighted mean of everything.
 * What a week has in common, its weather above all, is in b_w and not in the answer, whoever was watched in it.
 *
 * @param cells    one a subject and week, any order
 * @param subjects how many there are
 * @returns one number a subject, in the unit of the means; null for one that was never watched, and for one that shares no
 * week, directly or over others, with a subject of another group: nothing tells its use from the season
 * Source: two-way additive model of unbalanced data, Searle (1971), Linear Models, chapter 7 (from memory), solved by turns
 * (Gauss-Seidel on the normal equations), begun with the means of the weeks. Checked against `lm` of R.
 * Edges: where subjects fall apart into sets without a common week, each set is compared within itself and set to m.
 * Errors: none; it ends after 500 rounds where sets hang together by a thread.
 * @example compareWithinWeeks([{ subject: 0, group: 0, week: 0, mean: 80, weight: 1 },
 *   { subject: 1, group: 1, week: 0, mean: 84, weight: 1 }], 2) // [80, 84]
 */
export function compareWithinWeeks(cells: readonly WeekMean[], subjects: number): (number | null)[] {
  const weeks = numberWeeks(cells);
  const own = new Float64Array(subjects);
  const common = new Float64Array(weeks.count);
  const weightOfSubject = new Float64Array(subjects);
  const weightOfWeek = new Float64Array(weeks.count);
  let weight = 0;
  let sum = 0;
  let size = 0;
  for (const [i, cell] of cells.entries()) {
    add(weightOfSubject, cell.subject, cell.weight);
    add(weightOfWeek, weeks.of[i] ?? 0, cell.weight);
    weight += cell.weight;
    sum += cell.weight * cell.mean;
    size = Math.max(size, Math.abs(cell.mean));
  }
  const middle = sum / weight;
  let moved = Number.POSITIVE_INFINITY;
  for (let round = 0; round < MOST_ROUNDS && moved > STILL * size; round++) {
    common.fill(0);
    for (const [i, { subject, mean, weight: w }] of cells.entries())
      add(common, weeks.of[i] ?? 0, w * (mean - (own[subject] ?? 0)));
    for (let week = 0; week < weeks.count; week++)
      common[week] = (common[week] ?? 0) / (weightOfWeek[week] ?? 1);
    const next = new Float64Array(subjects);
    for (const [i, { subject, mean, weight: w }] of cells.entries())
      add(next, subject, w * (mean - (common[weeks.of[i] ?? 0] ?? 0)));
    moved = 0;
    for (let subject = 0; subject < subjects; subject++) {
      const value = (next[subject] ?? 0) / (weightOfSubject[subject] || 1);
      moved = Math.max(moved, Math.abs(value - (own[subject] ?? 0)));
      own[subject] = value;
    }
  }
  const isCompared = findCompared(cells, weeks, subjects);
  return Array.from(own, (value, subject) => (isCompared(subject) ? middle + value : null));
}

const add = (sums: Float64Array, place: number, value: number): void => {
  sums[place] = (sums[place] ?? 0) + value;
};

function numberWeeks(cells: readonly WeekMean[]): { of: number[]; count: number } {
  const numbers = new Map<number, number>();
  const of = cells.map(({ week }) => {
    const number = numbers.get(week) ?? numbers.size;
    numbers.set(week, number);
    return number;
  });
  return { of, count: numbers.size };
}

/** Which subjects hang together, week by week, with one of another group. */
function findCompared(
  cells: readonly WeekMean[],
  weeks: { of: readonly number[]; count: number },
  subjects: number,
): (subject: number) => boolean {
  const parent = Array.from({ length: subjects + weeks.count }, (_, i) => i);
  const rootOf = (one: number): number => {
    let root = one;
    while (parent[root] !== root) root = parent[root] ?? root;
    parent[one] = root;
    return root;
  };
  for (const [i, { subject }] of cells.entries())
    parent[rootOf(subject)] = rootOf(subjects + (weeks.of[i] ?? 0));
  const groups = new Map<number, Set<number>>();
  for (const { subject, group } of cells) {
    const root = rootOf(subject);
    groups.set(root, (groups.get(root) ?? new Set()).add(group));
  }
  return (subject) => (groups.get(rootOf(subject))?.size ?? 0) > 1;
}
