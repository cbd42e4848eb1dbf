import { type Declined, decline } from '#server/engine/declined.ts';
import type { ObservedLife } from './life-model.ts';
import { requireLives } from './require-lives.ts';
import { tabulateLives } from './tabulate-lives.ts';

/** Stands for failures of which no mode is told, where others have one. */
export const MODE_NOT_RECORDED = 'not recorded';

export interface ModeIncidence {
  mode: string;
  events: number;
  /** at each mileage where lives failed in this mode: between them nothing changes */
  points: { x: number; incidence: number; se: number }[];
}

/**
 * Aalen-Johansen estimate of cumulative incidence by failure mode, with late entry.
 *
 * F_k(x) = sum over u <= x of S(u-) d_k / n, S Kaplan-Meier of all modes together;
 * var F_k(x) = sum over u <= x of (F(x) - F(u))^2 d / (n (n - d)) + S(u-)^2 d_k (n - d_k) / n^3
 * - 2 (F(x) - F(u)) S(u-) d_k / n^2, kept as running sums, so that a point costs the same however many come before.
 *
 * @param lives in any order; failures without a mode are the mode 'not recorded' where others have one
 * @param table of the lives, where it is at hand
 * @returns modes in the order of their names, or declined where no failure has a mode
 * Source: Aalen and Johansen (1978), Scand. J. Statist. 5, 141-150; variance by the delta method, Marubini and Valsecchi
 * (1995), Analysing Survival Data from Clinical Trials, section 10.3 (from memory).
 * Variant: at risk entry < x <= exit. Edges: after a mileage where all at risk failed nothing is added any more.
 * Errors: as {@link requireLives}.
 * @example estimateIncidence([{ entry: 0, exit: 5, event: true, count: 1, mode: 'lining' }, { entry: 0, exit: 6, event: false, count: 1 }]) // one mode, incidence 0.5, se 0.3536
 */
export function estimateIncidence(
  lives: readonly ObservedLife[],
  table = tabulateLives(lives),
): ModeIncidence[] | Declined {
  const { events } = requireLives('estimateIncidence', lives);
  const needed = 'at least 1 failure with a mode';
  if (events === 0) return decline('no failures', needed, '0 failures');
  if (!lives.some(({ event, mode }) => event && mode !== undefined))
    return decline('no modes are told', needed, `${events} failures without a mode`);
  const { x, atRisk, events: failed, to } = table;
  const byMode = new Map<string, Map<number, number>>();
  for (const [i, { event, count, mode = MODE_NOT_RECORDED }] of lives.entries()) {
    if (!event) continue;
    const own = byMode.get(mode) ?? new Map<number, number>();
    byMode.set(mode, own);
    const at = (to[i] ?? 0) - 1;
    own.set(at, (own.get(at) ?? 0) + count);
  }
  const before = new Float64Array(x.length);
  const greenwood = new Float64Array(x.length);
  let survival = 1;
  let sum = 0;
  for (let j = 0; j < x.length; j++) {
    const [n, d] = [atRisk[j] ?? 1, failed[j] ?? 0];
    before[j] = survival;
    survival *= (n - d) / n;
    sum += n > d ? d / (n * (n - d)) : 0;
    greenwood[j] = sum;
  }
  const names = [...byMode.keys()].sort((a, b) => (a < b ? -1 : 1));
  return names.map((mode) =>
    followMode(mode, byMode.get(mode) ?? new Map(), { x, atRisk, before, greenwood }),
  );
}

type Table = Record<'x' | 'atRisk' | 'before' | 'greenwood', Float64Array>;

/** Between failures of the mode F stands still, so all that Greenwood's terms add there has one F. */
function followMode(mode: string, failures: Map<number, number>, table: Table): ModeIncidence {
  let incidence = 0;
  let events = 0;
  const sums = { own: 0, lean: 0, leanF: 0, g: 0, gF: 0, gFF: 0 };
  const addGreenwood = (amount: number) => {
    sums.g += amount;
    sums.gF += amount * incidence;
    sums.gFF += amount * incidence * incidence;
  };
  let reached = 0;
  const points = [...failures.keys()]
    .sort((a, b) => a - b)
    .map((j) => {
      const d = failures.get(j) ?? 0;
      const n = table.atRisk[j] ?? 1;
      const s = table.before[j] ?? 0;
      const until = table.greenwood[j - 1] ?? 0;
      addGreenwood(until - reached);
      events += d;
      incidence += (s * d) / n;
      addGreenwood((table.greenwood[j] ?? 0) - until);
      reached = table.greenwood[j] ?? 0;
      const lean = (s * d) / n / n;
      sums.own += (s * s * d * (n - d)) / n ** 3;
      sums.lean += lean;
      sums.leanF += lean * incidence;
      const variance =
        incidence * incidence * sums.g -
        2 * incidence * sums.gF +
        sums.gFF +
        sums.own -
        2 * (incidence * sums.lean - sums.leanF);
      return {
        x: table.x[j] ?? 0,
        incidence: Math.min(1, incidence),
        se: Math.sqrt(Math.max(0, variance)),
      };
    });
  return { mode, events, points };
}
