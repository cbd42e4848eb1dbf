import { expect, it } from 'vitest';
import { had } from '#tests/published/had.ts';
import { testLogRank } from './test-log-rank.ts';

const failed = (exit: number, entry = 0) => ({ entry, exit, event: true, count: 1 });
const ran = (exit: number, entry = 0) => ({ entry, exit, event: false, count: 1 });

// By hand: at 1 two at risk, E = 1/2, V = 1/4; at 2 one at risk, V = 0.
it('runs as its note says', () => {
  const { chisq, df, p, expected } = had(testLogRank([[failed(1)], [failed(2)]]));
  expect([chisq, df, p]).toEqual([expect.closeTo(1, 12), 1, expect.closeTo(0.3173, 4)]);
  expect(expected).toEqual([0.5, 1.5]);
});

it('is the same for two groups beside a third that was never at risk with them', () => {
  const two = [
    [failed(1), failed(3), ran(5)],
    [failed(2), failed(4), failed(4), ran(6)],
  ];
  const { chisq, df, expected } = had(testLogRank(two));
  const three = had(testLogRank([...two, [failed(20, 10), failed(30, 10)]]));
  expect(three).toMatchObject({ df, chisq: expect.closeTo(chisq, 12) });
  expect(three.expected.slice(0, 2)).toEqual(expected);
});

it('takes counts for as many lives, and late entry into account', () => {
  const once = [
    [failed(3, 1), ran(9, 2)],
    [failed(4), failed(7, 3)],
  ];
  const often = once.map((group) => group.map((life) => ({ ...life, count: 3 })));
  const rows = once.map((group) => [...group, ...group, ...group]);
  expect(had(testLogRank(often)).chisq).toBeCloseTo(had(testLogRank(rows)).chisq, 12);
});

it('declines one group, lives that all ran on, and groups never at risk together', () => {
  expect(testLogRank([[failed(1)], []])).toMatchObject({ declined: { reason: 'one group', got: '1' } });
  expect(testLogRank([[ran(1)], [ran(2)]])).toMatchObject({ declined: { reason: 'no failures' } });
  expect(testLogRank([[failed(1)], [failed(9, 5)]])).toMatchObject({
    declined: { reason: 'no lives of two groups were at risk at one failure' },
  });
});
