import { expect, it } from 'vitest';
import { describeSoak } from '#tests/measure/soak/describe-soak.ts';
import { judgeSoak } from '#tests/measure/soak/judge-soak.ts';
import { runSoak } from '#tests/measure/soak/run-soak.ts';

/** A minute shows lost lines, errors and connections left open; a slow leak takes `npm run soak`. */
const PLAN = { warmUpS: 5, peakS: 8, loadS: 45, sampleEveryS: 0.5 };

it('loses no line, makes no error and lets go of every connection under several senders and readers', async () => {
  const report = await runSoak(PLAN);
  expect(judgeSoak(report, true), describeSoak(report)).toEqual([]);
  expect(report.samples.length).toBeGreaterThan(PLAN.loadS / PLAN.sampleEveryS / 2);
  expect(Object.keys(report.latencies).sort()).toEqual(['delivery', 'list', 'outlook', 'series', 'vehicle']);
}, 240_000);
