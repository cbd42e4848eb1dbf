import { isDeclined } from '#server/engine/declined.ts';
import { tQuantile } from '#server/engine/distributions/t-quantile.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { fitOls } from '#server/engine/trend/fit-ols.ts';
import { measureEffectiveShare } from '#server/engine/trend/measure-effective-share.ts';

const MOST_BLOCKS = 24;
/** A share of the level an hour: less than this cannot be told from settling in half an hour. */
const NOTICED = 0.05;
/** An interval that reaches beyond this share of the level an hour has not shown that memory is flat. */
const TOO_WIDE = 0.5;
const HOUR_S = 3600;

export interface MemoryTrend {
  verdict: 'flat' | 'grows' | 'undecided';
  /** median of the last two thirds, MiB */
  levelMiB: number;
  /** slope of the last two thirds with its 95 % interval, MiB an hour */
  slopeMiBPerH: { low: number; estimate: number; high: number };
}

/**
 * Whether memory grows. The first third, in which caches fill and code is compiled, is left out; the rest is cut into
 * blocks, each long enough to hold several collections of garbage, and a line is fitted through one value a block:
 * the median of resident memory, the least of the heap, which comes closest to what is really held. The interval allows
 * for blocks that go with their neighbours.
 */
export function judgeMemory(
  samples: readonly { atS: number; valueMiB: number }[],
  pick: 'median' | 'least',
): MemoryTrend {
  const steady = samples.slice(Math.floor(samples.length / 3));
  const levelMiB = measureMedian(steady.map(({ valueMiB }) => valueMiB));
  const blocks = cut(steady, Math.min(MOST_BLOCKS, Math.floor(steady.length / 3)));
  const x = blocks.map((block) => measureMedian(block.map(({ atS }) => atS)) / HOUR_S);
  const y = blocks.map((block) => {
    const values = block.map(({ valueMiB }) => valueMiB);
    return pick === 'median' ? measureMedian(values) : Math.min(...values);
  });
  const line = fitOls({ x, y });
  if (isDeclined(line) || blocks.length < 4)
    return { verdict: 'undecided', levelMiB, slopeMiBPerH: { low: -Infinity, estimate: 0, high: Infinity } };
  const share = measureEffectiveShare(y.map((one, i) => one - line.intercept - line.slope * (x[i] ?? 0)));
  const independent = Math.max(3, blocks.length * share);
  const half = tQuantile(0.975, independent - 2) * line.seSlope * Math.sqrt(blocks.length / independent);
  const slopeMiBPerH = { low: line.slope - half, estimate: line.slope, high: line.slope + half };
  return { verdict: decide(slopeMiBPerH, levelMiB), levelMiB, slopeMiBPerH };
}

function decide({ low, estimate, high }: MemoryTrend['slopeMiBPerH'], levelMiB: number) {
  if (low > 0 && estimate > NOTICED * levelMiB) return 'grows';
  return high > TOO_WIDE * levelMiB ? 'undecided' : 'flat';
}

function cut<T>(values: readonly T[], count: number): T[][] {
  return Array.from({ length: count }, (_, i) =>
    values.slice(Math.round((i * values.length) / count), Math.round(((i + 1) * values.length) / count)),
  );
}
