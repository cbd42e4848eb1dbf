import { expect, it } from 'vitest';
import { judgePan } from './judge-pan.ts';

it('runs as its note says', () => {
  expect(judgePan('fine').verdict).toBe('passed');
});

it.each([
  ['none', 'pan_clean', 'passed', false],
  ['fine', 'pan_fine', 'passed', false],
  ['lining', 'pan_lining', 'failed', true],
  ['metal', 'pan_metal', 'failed', true],
] as const)('%s is %s: %s', (debris, result, verdict, coolerDue) => {
  const judged = judgePan(debris);
  expect(judged).toMatchObject({ result, verdict, figures: { coolerDue } });
  expect(judged.lookNext[0]).toBe(coolerDue ? 'cooler' : undefined);
});
