import { expect, it } from 'vitest';
import { judgeSoak } from './judge-soak.ts';
import type { SoakReport } from './run-soak.ts';

const flat = { verdict: 'flat' as const, levelMiB: 300, slopeMiBPerH: { low: -1, estimate: 0, high: 1 } };
const good: SoakReport = {
  minutes: 30,
  peakLinesPerS: 1000,
  plannedLinesPerS: 800,
  deliveredLinesPerS: 799,
  latestS: 1,
  acknowledgedLines: 1_440_000,
  missingLines: 0,
  surplusLines: 0,
  errors: [],
  latencies: {},
  rss: flat,
  heap: flat,
  connections: { most: 12, mostWaiting: 2, atEnd: 12, activeAtEnd: 0 },
  tablesMiB: { before: {}, after: {} },
  exitCode: 0,
  samples: [],
};

it('finds nothing in a good run', () => {
  expect(judgeSoak(good, false)).toEqual([]);
});

it.each<[string, Partial<SoakReport>, RegExp]>([
  ['an error', { errors: ['list answered 500'] }, /^1 errors, .*list answered 500/],
  ['a lost line', { missingLines: 1 }, /^1 lines were acknowledged/],
  ['a line too many', { surplusLines: 2 }, /^2 lines are there twice/],
  ['a server that falls behind', { deliveredLinesPerS: 790 }, /^790 lines\/s of 800/],
  ['a busy connection', { connections: { ...good.connections, activeAtEnd: 1 } }, /did not come to rest/],
  ['an end by a signal', { exitCode: 'SIGKILL' }, /ended with SIGKILL/],
  ['resident memory that grows', { rss: { ...flat, verdict: 'grows' } }, /^resident memory: grows/],
  ['a heap that grows', { heap: { ...flat, verdict: 'grows' } }, /^heap: grows/],
])('finds %s', (_, change, fault) => {
  expect(judgeSoak({ ...good, ...change }, false)).toEqual([expect.stringMatching(fault)]);
});

it('asks less of a short run: it may fall behind and be undecided, and memory must not run away', () => {
  const grows = (estimate: number) => ({
    ...flat,
    verdict: 'grows' as const,
    slopeMiBPerH: { low: 1, estimate, high: 2 * estimate },
  });
  const short = {
    ...good,
    minutes: 1,
    deliveredLinesPerS: 400,
    rss: { ...flat, verdict: 'undecided' as const },
  };
  expect(judgeSoak(short, true)).toEqual([]);
  expect(judgeSoak({ ...short, rss: grows(5000) }, true)).toEqual([]);
  expect(judgeSoak({ ...short, rss: grows(20_000) }, true)).toEqual(['resident memory: grows']);
  expect(judgeSoak(short, false)).toHaveLength(2);
});
