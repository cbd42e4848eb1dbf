import { slipAt } from './slip-at.ts';
import type { WearCase, WearPoint } from './wear-model.ts';

/** How far a rise strays from a smooth path. */
export interface Raggedness {
  /** sum of the squared steps away from the path, less what noise makes of them, rpm^2; may be negative */
  squares: number;
  /** rise over the same points, rpm */
  riseRpm: number;
}

/** Points that are averaged into one, so that a jump stands out of the noise. */
const BLOCK = 4;

/**
 * Raggedness of a rise: variance about its smooth path for each rpm that it rose.
 *
 * A rise in jumps of J rpm that come at random has mean m J and variance m J^2 after m of them: variance over mean is J.
 * Residuals of the best drifting case since its onset are averaged by 4; squares = sum (R_k+1 - R_k)^2 less the
 * variances of both, as the scatter within the fours tells them. squares / riseRpm is to be pooled over clutches and
 * steadied before it is used. Its mean is 7/12 of J where the case is the true path: means of four, and what the scatter
 * within them takes off, hide the rest; a path that was fitted to the jumps hides more.
 *
 * @param cases    of one clutch
 * @param points   that they were fitted to, in order of km
 * @param limitRpm limit, rpm
 * @returns squares and rise; null where nothing drifts or fewer than three blocks have
 * Source: moments of a compound Poisson process, Feller (1971), An Introduction to Probability Theory, vol. II, chapter
 * VI.4 (from memory). Edges: as said. Errors: none.
 * @example measureRaggedness([flatCase], flatPoints, 150) // null
 */
export function measureRaggedness(
  cases: readonly WearCase[],
  points: readonly WearPoint[],
  limitRpm: number,
): Raggedness | null {
  let best: WearCase | null = null;
  for (const one of cases) if (one.kind === 'drift' && one.weight > (best?.weight ?? 0)) best = one;
  if (best === null) return null;
  const { onsetKm } = best;
  const since = points.filter((point) => point.km > onsetKm);
  const blocks: { residual: number; variance: number; slip: number }[] = [];
  for (let to = since.length; to >= BLOCK; to -= BLOCK) {
    const block = since.slice(to - BLOCK, to);
    const slips = block.map((point) => slipAt(best, point.km, limitRpm));
    const residuals = block.map((point, i) => point.slipRpm - (slips[i] ?? 0));
    const weights = block.map((point) => 1 / point.variance);
    const total = weights.reduce((a, b) => a + b, 0);
    const mean = (values: readonly number[]) =>
      values.reduce((sum, value, i) => sum + (value * (weights[i] ?? 0)) / total, 0);
    const residual = mean(residuals);
    blocks.push({
      residual,
      // Of the mean, from the scatter within the block: 1 / (n - 1) of the mean square.
      variance: mean(residuals.map((one) => (one - residual) ** 2)) / (BLOCK - 1),
      slip: mean(slips),
    });
  }
  if (blocks.length < 3) return null;
  let squares = 0;
  blocks.slice(1).forEach((block, i) => {
    const before = blocks[i] ?? block;
    squares += (block.residual - before.residual) ** 2 - block.variance - before.variance;
  });
  return { squares, riseRpm: (blocks[0]?.slip ?? 0) - (blocks.at(-1)?.slip ?? 0) };
}
