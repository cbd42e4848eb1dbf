/** What subjects showed in weeks: as many numbers in each list, one for each subject and week. */
export interface WeekMeans {
  /** number of the subject, from 0 */
  subject: ArrayLike<number>;
  /** number of the week, from 0, with few gaps */
  week: ArrayLike<number>;
  mean: ArrayLike<number>;
  /** positive: readings, or way; 0 where the week does not tell */
  weight: ArrayLike<number>;
}

const MOST_ROUNDS = 300;
/** Of the size of the means: far below what could be told apart. */
const STILL = 1e-8;

/**
 * Means of subjects as if each had been watched in the same weeks.
 *
 * mean_iw = a_i + b_w by weighted least squares, sum(weight_i * a_i) = 0; answer a_i + m, m the weighted mean of everything.
 * What a week has in common, its weather above all, is in b_w and not in the answer, whoever was watched in it.
 *
 * @param means  of subjects in weeks, in any order
 * @param groups of each subject that which it belongs to: a converter its vehicle
 * @returns one number a subject, in the unit of the means; null for one that was never watched, and for one that shares no
 * week, directly or over others, with a subject of another group: nothing tells its use from the season
 * Source: two-way additive model of unbalanced data, Searle (1971), Linear Models, chapter 7 (from memory), solved by turns
 * (Gauss-Seidel on the normal equations), begun with the means of the weeks. Checked against `lm` of R.
 * Edges: where subjects fall apart into sets without a common week, each set is compared within itself and set to m.
 * Errors: none; it ends after 300 rounds where sets hang together by a thread.
 * @example compareWithinWeeks({ subject: [0, 1], week: [0, 0], mean: [80, 84], weight: [1, 1] }, [0, 1]) // [80, 84]
 */
export function compareWithinWeeks(
  { subject, week, mean, weight }: WeekMeans,
  groups: readonly number[],
): (number | null)[] {
  const cells = subject.length;
  const subjects = groups.length;
  let weeks = 0;
  let whole = 0;
  let sum = 0;
  let size = 0;
  for (let i = 0; i < cells; i++) weeks = Math.max(weeks, at(week, i) + 1);
  const ofSubject = new Float64Array(subjects);
  const ofWeek = new Float64Array(weeks);
  for (let i = 0; i < cells; i++) {
    const w = at(weight, i);
    if (w === 0) continue;
    add(ofSubject, at(subject, i), w);
    add(ofWeek, at(week, i), w);
    whole += w;
    sum += w * at(mean, i);
    size = Math.max(size, Math.abs(at(mean, i)));
  }
  const own = new Float64Array(subjects);
  const common = new Float64Array(weeks);
  const next = new Float64Array(subjects);
  let moved = Number.POSITIVE_INFINITY;
  for (let round = 0; round < MOST_ROUNDS && moved > STILL * size; round++) {
    common.fill(0);
    for (let i = 0; i < cells; i++) {
      const w = at(weight, i);
      if (w > 0) add(common, at(week, i), w * (at(mean, i) - at(own, at(subject, i))));
    }
    for (let one = 0; one < weeks; one++) common[one] = at(common, one) / (at(ofWeek, one) || 1);
    next.fill(0);
    for (let i = 0; i < cells; i++) {
      const w = at(weight, i);
      if (w > 0) add(next, at(subject, i), w * (at(mean, i) - at(common, at(week, i))));
    }
    moved = 0;
    for (let one = 0; one < subjects; one++) {
      const value = at(next, one) / (at(ofSubject, one) || 1);
      moved = Math.max(moved, Math.abs(value - at(own, one)));
      own[one] = value;
    }
  }
  const isCompared = findCompared({ subject, week, mean, weight }, groups, weeks);
  return Array.from(own, (value, one) => (isCompared(one) ? sum / whole + value : null));
}

const at = (values: ArrayLike<number>, place: number): number => values[place] ?? 0;

const add = (sums: Float64Array, place: number, value: number): void => {
  sums[place] = at(sums, place) + value;
};

/** Which subjects hang together, week by week, with one of another group. */
function findCompared(
  { subject, week, weight }: WeekMeans,
  groups: readonly number[],
  weeks: number,
): (subject: number) => boolean {
  const parent = Int32Array.from({ length: groups.length + weeks }, (_, i) => i);
  const rootOf = (one: number): number => {
    let root = one;
    while (at(parent, root) !== root) root = at(parent, root);
    parent[one] = root;
    return root;
  };
  for (let i = 0; i < subject.length; i++)
    if (at(weight, i) > 0) parent[rootOf(at(subject, i))] = rootOf(groups.length + at(week, i));
  const found = new Map<number, Set<number>>();
  for (const [one, group] of groups.entries()) {
    const root = rootOf(one);
    found.set(root, (found.get(root) ?? new Set()).add(group));
  }
  return (one) => (found.get(rootOf(one))?.size ?? 0) > 1;
}
