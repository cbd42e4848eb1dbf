import { type GapGroup, groupGaps } from './group-gaps.ts';
import { listPackings } from './list-packings.ts';
import { maySit } from './may-sit.ts';
import type { DepotQuestion, LinearModel, PlanColumn, PlanGoal } from './planning-model.ts';

/** A vehicle on hold that is short weighs as much as so many of the dearest. Own choice. */
const SHORT_WORTH = 20;

/** A linear model with what its columns stand for. */
export interface PlanModel {
  linear: LinearModel;
  columns: PlanColumn[];
  /** lengths of the inspections, falling: packings count by these */
  lengths: number[];
  /** groups of gaps of each day, the extra bay among them where it counts */
  groups: GapGroup[][];
  /** index of the gap of the extra bay, day by day */
  extraGaps: number[];
  /** false where there are more packings than the model has */
  complete: boolean;
}

/**
 * The plan of one depot as a linear model in whole numbers.
 *
 * Columns: x[v,d] = 1 where vehicle v is inspected on day d; y[d,g,p] = how many gaps of group g on day d are filled by
 * packing p; e[d] = 1 where the one extra bay is on day d.
 * Make most of: sum of value[v,d] * x[v,d], or of x[v,d] over the vehicles on hold;
 * with, for each v: sum over d of x[v,d] <= 1;
 * for each day and length l: sum of x[v,d] over vehicles of that length <= sum over g, p of pieces[p,l] * y[d,g,p];
 * for each group: sum over p of y[d,g,p] <= gaps in it (+ e[d] where the extra bay would be one of them);
 * where asked: sum of x[v,d] over vehicles on hold + short >= leastHolds; sum of e[d] <= 1.
 * `short` has a large loss and is 0; who looks for a first solution may let it be more.
 * Bays are not told apart, so that plans that differ in the bay alone are one; {@link readSeatings} gives the bays back.
 * For given y the rest is a transportation problem, whose corners are whole.
 *
 * @param question the depot
 * @param goal     what is to be made most of
 * @returns the model
 * Source: assignment with the cutting patterns of Gilmore and Gomory 1961; total unimodularity of the rest: A. J. Hoffman
 * and J. B. Kruskal, Integral boundary points of convex polyhedra, 1956 (both from memory). Edges: no column where
 * nobody may be inspected. Errors: none.
 * @example buildPlanModel({ days: [], candidates: [] }, { kind: 'holds', extra: false }).columns // []
 */
export function buildPlanModel({ days, candidates }: DepotQuestion, goal: PlanGoal): PlanModel {
  const asked = candidates.filter((one) => one.hold || goal.kind === 'value');
  const lengths = [...new Set(asked.map(({ quarters }) => quarters))].sort((a, b) => b - a);
  const most = lengths.map((length) => asked.filter(({ quarters }) => quarters === length).length);
  const groups = days.map((day) =>
    groupGaps(goal.extra ? [...day.gaps, { ...day.extra, bay: 0 }] : day.gaps, lengths),
  );
  const { linear, addRow, addColumn } = draftModel();
  const columns: PlanColumn[] = [];
  const ofLength = days.map(() => lengths.map(() => addRow(-Infinity, 0)));
  const holds = goal.kind === 'value' && goal.leastHolds > 0 ? addRow(goal.leastHolds, Infinity) : null;
  const add = (column: PlanColumn, gain: number, entries: [row: number, coefficient: number][]) => {
    columns.push(column);
    addColumn(gain, entries);
  };

  if (holds !== null) {
    const dearest = candidates
      .flatMap(({ values }) => values)
      .reduce<number>((most, value) => Math.max(most, Math.abs(value ?? 0)), 1);
    add({ kind: 'short' }, -SHORT_WORTH * dearest, [[holds, 1]]);
    linear.upper[columns.length - 1] = 0;
  }
  for (const [v, candidate] of candidates.entries()) {
    if (!candidate.hold && goal.kind === 'holds') continue;
    const able = days.flatMap((_, d) => (maySit(candidate, days, d, goal.extra) ? [d] : []));
    if (able.length === 0) continue;
    const once = addRow(-Infinity, 1);
    for (const d of able) {
      const link = ofLength[d]?.[lengths.indexOf(candidate.quarters)] ?? 0;
      const entries: [number, number][] = [
        [once, 1],
        [link, 1],
      ];
      if (holds !== null && candidate.hold) entries.push([holds, 1]);
      const gain = goal.kind === 'holds' ? 1 : (candidate.values[d] ?? 0);
      add({ kind: 'seat', candidate: v, day: d }, gain, entries);
    }
  }

  const known = new Map<number, ReturnType<typeof listPackings>>();
  const once = goal.extra ? addRow(-Infinity, 1) : 0;
  for (const [d, own] of groups.entries())
    for (const [group, { room, gaps }] of own.entries()) {
      const found = known.get(room) ?? listPackings(room, lengths, most);
      known.set(room, found);
      const hasExtra = gaps.includes(days[d]?.gaps.length ?? -1);
      const count = addRow(-Infinity, gaps.length - (hasExtra ? 1 : 0));
      for (const packing of found.packings) {
        const entries: [number, number][] = [[count, 1]];
        for (const [i, pieces] of packing.entries())
          if (pieces > 0) entries.push([ofLength[d]?.[i] ?? 0, -pieces]);
        add({ kind: 'packing', day: d, group, packing }, 0, entries);
      }
      if (hasExtra)
        add({ kind: 'extra', day: d }, 0, [
          [once, 1],
          [count, -1],
        ]);
    }
  return {
    linear,
    columns,
    lengths,
    groups,
    extraGaps: days.map(({ gaps }) => gaps.length),
    complete: [...known.values()].every(({ complete }) => complete),
  };
}

function draftModel() {
  const linear: LinearModel = {
    gains: [],
    lower: [],
    upper: [],
    rowLower: [],
    rowUpper: [],
    starts: [0],
    rows: [],
    coefficients: [],
  };
  return {
    linear,
    addRow: (lower: number, upper: number): number => {
      linear.rowUpper.push(upper);
      return linear.rowLower.push(lower) - 1;
    },
    addColumn: (gain: number, entries: readonly (readonly [row: number, coefficient: number])[]) => {
      linear.gains.push(gain);
      linear.lower.push(0);
      linear.upper.push(Infinity);
      for (const [row, coefficient] of entries) {
        linear.rows.push(row);
        linear.coefficients.push(coefficient);
      }
      linear.starts.push(linear.rows.length);
    },
  };
}
