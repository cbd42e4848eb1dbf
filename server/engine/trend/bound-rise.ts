import { boundUnknownBreak } from './bound-unknown-break.ts';

/**
 * Upper bound of the one-sided p-value of a rise from an unknown break, by what is known of the scatter.
 *
 * known: {@link boundUnknownBreak} of z; estimated: of z / sqrt(rss), a correlation; larger: the larger of both.
 *
 * @param z          largest statistic, in roots of the weight
 * @param length     length of the path of the normed regressor, radians
 * @param rss        weighted residual sum of squares of the baseline
 * @param dimensions of the errors once the baseline is out
 * @param scale      see FlatThenRisingQuestion
 * @returns probability
 * Source: that of boundUnknownBreak. Edges: no scatter at all counts as no correlation. Errors: those of boundUnknownBreak.
 * @example boundRise(3, 0, 20, 9, 'known') // 0.00135, the plain normal tail
 */
export function boundRise(
  z: number,
  length: number,
  rss: number,
  dimensions: number,
  scale: 'known' | 'estimated' | 'larger',
): number {
  const known = boundUnknownBreak({ peak: z, length, dimensions: null });
  if (scale === 'known') return known;
  const peak = rss > 0 ? Math.max(-1, Math.min(1, z / Math.sqrt(rss))) : 0;
  const estimated = boundUnknownBreak({ peak, length, dimensions });
  return scale === 'larger' ? Math.max(known, estimated) : estimated;
}
