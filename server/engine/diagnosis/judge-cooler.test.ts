import { expect, it } from 'vitest';
import { judgeCooler } from './judge-cooler.ts';

const judge = (litres: number, seconds: number, asMeasured = false) => {
  const judged = judgeCooler({ litres, seconds, asMeasured });
  if ('asks' in judged) throw new Error(`asked about ${judged.asks[0]?.kind}`);
  return judged;
};

// 1 L in 20 s is 3 L in 60 s.
it('runs as its note says', () => {
  expect(judge(1, 20).figures.flowLMin).toBe(3);
});

it('flows with a quart in 20 s and with exactly the wanted, and is restricted below', () => {
  // a quart (US) is 0.946 L, NIST SP 811 appendix B.8
  expect(judge(0.946, 20)).toMatchObject({ result: 'cooler_flows', verdict: 'passed' });
  expect(judge(1.4, 30).result).toBe('cooler_flows');
  expect(judge(1.39, 30)).toMatchObject({ result: 'cooler_restricted', verdict: 'failed' });
});

it('asks where nothing, or far too much, was caught, unless the figures stand', () => {
  expect(judgeCooler({ litres: 0, seconds: 20, asMeasured: false })).toMatchObject({
    asks: [{ kind: 'nothing_caught', field: 'litres' }],
  });
  expect(judgeCooler({ litres: 95, seconds: 20, asMeasured: false })).toMatchObject({
    asks: [{ kind: 'much_flow' }],
  });
  expect(judge(0, 20, true).result).toBe('cooler_restricted');
});
