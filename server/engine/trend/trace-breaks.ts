import type { SortedPoints } from './require-points.ts';

/**
 * Fit of a kink on one stretch between neighbouring x, as a function of t = break - from.
 *
 * With v(t) the regressor (x - break)+ after what is fitted anyway (a constant, or a straight line) was taken out,
 * v.y = ay - t by and v.v = aa - 2 t ab + t^2 bb; all products weighted.
 */
export interface Arc {
  from: number;
  width: number;
  ay: number;
  by: number;
  aa: number;
  ab: number;
  bb: number;
}

/**
 * Fits of a kink at every place, exactly, by running sums.
 *
 * Between neighbouring x the regressor is linear in the break, so three sums describe every fit there. The sums
 * run from the right about the current x, and only ever add: no digits cancel.
 *
 * @param points     in order of x
 * @param baseline   what is fitted anyway: 'flat' or 'straight'
 * @param leastAfter how many different x must lie at or beyond the break, apart from the one it starts from
 * @returns arcs in order of x; 'flat' begins at the first x, 'straight' at the second (before it there is no kink)
 * Source: the profile search is the classical one (Hudson 1966, J. Amer. Statist. Assoc. 61, 1097-1129); the sums
 * are own work. Cost: O(n). Edges: too few points give no arcs. Errors: none.
 * @example traceBreaks(requirePoints('f', { x: [0, 1, 2], y: [0, 0, 1] }), 'flat', 1).length // 2
 */
export function traceBreaks(points: SortedPoints, baseline: 'flat' | 'straight', leastAfter: number): Arc[] {
  const { n, x, y, w } = points;
  let total = 0;
  let sx = 0;
  let sy = 0;
  for (let i = 0; i < n; i++) {
    total += w[i] ?? 0;
    sx += (w[i] ?? 0) * (x[i] ?? 0);
    sy += (w[i] ?? 0) * (y[i] ?? 0);
  }
  const meanX = sx / total;
  const meanY = sy / total;
  let sxx = 0;
  let sxy = 0;
  for (let i = 0; i < n; i++) {
    sxx += (w[i] ?? 0) * ((x[i] ?? 0) - meanX) ** 2;
    sxy += (w[i] ?? 0) * ((x[i] ?? 0) - meanX) * ((y[i] ?? 0) - meanY);
  }
  const slope = baseline === 'straight' && sxx > 0 ? sxy / sxx : 0;

  const arcs: Arc[] = [];
  let w0 = 0;
  let w1 = 0;
  let w2 = 0;
  let y0 = 0;
  let y1 = 0;
  let beyond = 0;
  let i = n - 1;
  while (i >= 0) {
    const knot = x[i] ?? 0;
    while (i >= 0 && (x[i] ?? 0) === knot) {
      w0 += w[i] ?? 0;
      y0 += (w[i] ?? 0) * ((y[i] ?? 0) - meanY - slope * ((x[i] ?? 0) - meanX));
      i--;
    }
    beyond++;
    if (i < 0) break;
    const from = x[i] ?? 0;
    const width = knot - from;
    w2 += width * (2 * w1 + width * w0);
    w1 += width * w0;
    y1 += width * y0;
    if (beyond < leastAfter) continue;
    if (baseline === 'straight' && from === x[0]) break;
    const arc = {
      from,
      width,
      ay: y1,
      by: y0,
      aa: w2 - w1 ** 2 / total,
      ab: w1 - (w1 * w0) / total,
      bb: w0 - w0 ** 2 / total,
    };
    if (baseline === 'straight') {
      const c1 = w2 + (from - meanX) * w1;
      const c0 = w1 + (from - meanX) * w0;
      arc.aa -= c1 ** 2 / sxx;
      arc.ab -= (c1 * c0) / sxx;
      arc.bb -= c0 ** 2 / sxx;
    }
    if (arc.aa > 0 && arc.bb > 0) arcs.push(arc);
  }
  return arcs.reverse();
}
