import { MOST_LIMITS, type RowBounds } from './bound-drift-rows.ts';
import type { FoundCases } from './found-cases.ts';
import { type DriftGrid, UNIT_KM } from './lay-drift-grid.ts';
import type { WearSums } from './sum-wear-points.ts';
import type { Growth } from './wear-model.ts';

/**
 * Tries the drifts of a grid: writes down each case that is likely enough beside the best one.
 *
 * For onset, growth and span with s = 1 / g(span): information sum w (1 - s g)^2, target sum w (1 - s g)(y - s L g), squares
 * sum w (y - s L g)^2, L the limit; with the prior, a = target / information and log weight = -1/2 (squares - a^2
 * information + ln(information / prior)) + log prior.
 *
 * @param sums     of the points
 * @param grid     of onsets and spans
 * @param bounds   of its rows, which need not be tried where nothing in them can be likely enough
 * @param limitRpm limit, rpm
 * @param enough   a case is likely enough by this logarithm beside that of the best
 * @param found    where cases go, and the best logarithm so far
 * @returns nothing; cases come in order of onset, growth and span
 * Source: normal posterior of a linear model, any textbook. Edges: what stands beyond 20 limits is no case. Errors: none.
 * @example tryDrifts(sums, grid, bounds, 150, -11.5, found)
 */
export function tryDrifts(
  sums: WearSums,
  grid: DriftGrid,
  bounds: RowBounds,
  limitRpm: number,
  enough: number,
  found: FoundCases,
): void {
  const { n, kms, slips, w, priorInfo, priorTarget } = sums;
  const { info: baseW, target: baseWy, squares: baseWyy } = sums;
  const { logCell, densities, spans } = grid;
  const count = grid.ways.length;
  const grown = new Float64Array(n);
  let since = 0;
  for (let o = 0; o < grid.onsets; o++) {
    const onsetKm = grid.fromKm + (o + 0.5) * grid.cellKm;
    // Points are in order of km: those before the onset add nothing.
    while (since < n && ((kms[since] ?? 0) - onsetKm) / UNIT_KM <= 0) since++;
    for (let way = 0; way < count; way++) {
      const row = o * count + way;
      const best = Math.max(found.best, bounds.bestAtLeast);
      if ((bounds.most[row] ?? 0) - best <= enough) continue;
      const one = grid.ways[way];
      if (one === undefined) continue;
      const { growth, logShare, spanKm, s: scales } = one;
      // g of the way gone: its sums are had once, and scaled by s = 1 / g(span) for each span.
      raiseAll(growth, kms, onsetKm, since, grown);
      let g1 = 0;
      let g2 = 0;
      let gy = 0;
      for (let i = since; i < n; i++) {
        const g = grown[i] ?? 0;
        const wg = (w[i] ?? 0) * g;
        g1 += wg;
        g2 += wg * g;
        gy += wg * (slips[i] ?? 0);
      }
      const gNow = bounds.now[row] ?? 0;
      for (let k = 0; k < spans; k++) {
        const s = scales[k] ?? Number.NaN;
        if (!(s * gNow <= MOST_LIMITS)) continue;
        const info = baseW - 2 * s * g1 + s * s * g2;
        const target = baseWy - s * gy - limitRpm * (s * g1 - s * s * g2);
        const sLimit = s * limitRpm;
        const squares = baseWyy - 2 * s * limitRpm * gy + sLimit * sLimit * g2;
        const allInfo = info + priorInfo;
        const mean = (target + priorTarget) / allInfo;
        const left = squares + sums.priorSquares - mean * mean * allInfo;
        // The logarithm, 0 at the least, can only take from this: most cases need none.
        const atMost = -0.5 * left + logCell + logShare + (densities[k] ?? 0);
        if (atMost - found.best <= enough - ROUNDING) continue;
        const log = -0.5 * (left + Math.log(allInfo / priorInfo)) + logCell + logShare + (densities[k] ?? 0);
        if (log > found.best) found.best = log;
        if (log - found.best <= enough) continue;
        const sd = Math.sqrt(1 / allInfo);
        found.cases.push({
          kind: 'drift',
          growth,
          onsetKm,
          spanKm: spanKm[k] ?? 0,
          baselineRpm: mean,
          baselineSd: sd,
          levelRpm: mean + (limitRpm - mean) * s * gNow,
          levelSd: sd * Math.abs(1 - s * gNow),
          weight: 0,
          log,
        });
      }
    }
  }
}

/** More than rounding can add to a logarithm. */
const ROUNDING = 1e-6;

/** g of the way from the onset to each point; whole powers by multiplication, which is several times faster. */
function raiseAll(
  { law, value }: Growth,
  kms: Float64Array,
  onsetKm: number,
  since: number,
  grown: Float64Array,
): void {
  for (let i = since; i < kms.length; i++) grown[i] = ((kms[i] ?? 0) - onsetKm) / UNIT_KM;
  if (law === 'feedback')
    for (let i = since; i < kms.length; i++) grown[i] = Math.expm1(((grown[i] ?? 0) * UNIT_KM) / value);
  else if (value === 3 || value === 6)
    for (let i = since; i < kms.length; i++) {
      const along = grown[i] ?? 0;
      const cube = along * along * along;
      grown[i] = value === 3 ? cube : cube * cube;
    }
  else if (value !== 1) for (let i = since; i < kms.length; i++) grown[i] = (grown[i] ?? 0) ** value;
}
