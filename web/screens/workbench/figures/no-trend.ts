import type { TrendReply } from '#server/contract/analysis.ts';
import { noTrendParts } from '#server/contract/no-trend.ts';

/** What stands for an answer where there are too few points to ask for one: they are drawn all the same. */
export const noTrend = (n: number): TrendReply => ({ n, ...noTrendParts, declined: {} });
