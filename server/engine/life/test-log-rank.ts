import { Matrix, solve } from 'ml-matrix';
import { type Declined, decline } from '#server/engine/declined.ts';
import { chiSquareTail } from '#server/engine/distributions/chi-square-tail.ts';
import type { ObservedLife } from './life-model.ts';
import { placeLives } from './place-lives.ts';
import { requireLives } from './require-lives.ts';

export interface LogRank {
  chisq: number;
  df: number;
  p: number;
  /** failures of each group, and how many there would be were all groups alike, in the order of groups */
  observed: number[];
  expected: number[];
}

/**
 * Log-rank test of k groups, with late entry.
 *
 * At each mileage with d failures among n at risk, n_i of them of group i: E_i = d n_i / n,
 * V_ij = d (n - d) / (n - 1) (n_i / n) (delta_ij - n_j / n); chisq = u' V^-1 u, u = sum (O - E), summed over mileages;
 * df = groups less 1.
 *
 * @param groups lives of each group, each in any order
 * @returns chisq, df, p, and failures observed and expected; declined with fewer than 2 groups, without failures, and
 * where no lives of two groups were ever at risk together
 * Source: Mantel (1966), Cancer Chemother. Rep. 50, 163-170; Peto and Peto (1972); Kalbfleisch and Prentice (1980), section
 * 1.4 (from memory). Variant: unweighted, hypergeometric covariance, at risk entry < x <= exit.
 * Edges: -V is the Laplacian of a graph of groups that were at risk together. Where it falls into parts, V has one rank less for each,
 * so one group of each part is left out: parts are compared within, never with each other, and df is groups less parts.
 * Errors: as {@link requireLives}.
 * @example testLogRank([[{ entry: 0, exit: 1, event: true, count: 1 }], [{ entry: 0, exit: 2, event: true, count: 1 }]]) // chisq 1, df 1, p 0.3173
 */
export function testLogRank(groups: readonly (readonly ObservedLife[])[]): LogRank | Declined {
  const lives = groups.flat();
  const { events } = requireLives('testLogRank', lives);
  const k = groups.filter((group) => group.length > 0).length;
  if (k < 2) return decline('one group', 'at least 2 groups with lives', `${k}`);
  if (events === 0) return decline('no failures', 'at least 1 failure', `${lives.length} lives, none failed`);
  const { observed, expected, covariance } = sumOverFailures(groups, lives);
  const kept = leaveOneOfEachPart(covariance);
  if (kept.length === 0)
    return decline(
      'no lives of two groups were at risk at one failure',
      'a failure with lives of at least 2 groups at risk, not all of which failed',
      'none',
    );
  const off = Matrix.columnVector(kept.map((i) => (observed[i] ?? 0) - (expected[i] ?? 0)));
  const chisq = off.dot(solve(covariance.selection(kept, kept), off));
  return { chisq, df: kept.length, p: chiSquareTail(chisq, kept.length), observed, expected };
}

function sumOverFailures(groups: readonly (readonly ObservedLife[])[], lives: readonly ObservedLife[]) {
  const k = groups.length;
  const { x, from, to } = placeLives(lives);
  const change = new Float64Array((x.length + 1) * k);
  const failed = new Float64Array(x.length);
  const observed = new Array<number>(k).fill(0);
  let i = 0;
  for (const [group, own] of groups.entries())
    for (const { event, count } of own) {
      const [first, end] = [(from[i] ?? 0) * k + group, (to[i] ?? 0) * k + group];
      change[first] = (change[first] ?? 0) + count;
      change[end] = (change[end] ?? 0) - count;
      if (event) {
        failed[(to[i] ?? 1) - 1] = (failed[(to[i] ?? 1) - 1] ?? 0) + count;
        observed[group] = (observed[group] ?? 0) + count;
      }
      i++;
    }
  const expected = new Float64Array(k);
  const covariance = new Float64Array(k * k);
  const atRisk = new Float64Array(k);
  for (let j = 0; j < x.length; j++) {
    let n = 0;
    for (let g = 0; g < k; g++) {
      const now = (atRisk[g] ?? 0) + (change[j * k + g] ?? 0);
      atRisk[g] = now;
      n += now;
    }
    const d = failed[j] ?? 0;
    const spread = n > d ? (d * (n - d)) / (n - 1) / n / n : 0;
    for (let g = 0; g < k; g++) {
      const own = atRisk[g] ?? 0;
      if (own === 0) continue;
      expected[g] = (expected[g] ?? 0) + (d * own) / n;
      covariance[g * k + g] = (covariance[g * k + g] ?? 0) + spread * own * (n - own);
      for (let h = 0; h < g; h++)
        covariance[g * k + h] = (covariance[g * k + h] ?? 0) - spread * own * (atRisk[h] ?? 0);
    }
  }
  const matrix = Matrix.zeros(k, k);
  for (let g = 0; g < k; g++)
    for (let h = 0; h <= g; h++) {
      matrix.set(g, h, covariance[g * k + h] ?? 0);
      matrix.set(h, g, covariance[g * k + h] ?? 0);
    }
  return { observed, expected: [...expected], covariance: matrix };
}

/** All groups but the first of each part that the covariances join. */
function leaveOneOfEachPart(covariance: Matrix): number[] {
  const part = Array.from({ length: covariance.rows }, (_, g) => g);
  for (let g = 0; g < covariance.rows; g++)
    for (let h = 0; h < g; h++) {
      if (covariance.get(g, h) === 0) continue;
      const [one, other] = [part[g] ?? g, part[h] ?? h];
      for (const [i, own] of part.entries()) if (own === Math.max(one, other)) part[i] = Math.min(one, other);
    }
  return part.flatMap((own, g) => (own === g ? [] : [g]));
}
