import { expect, it } from 'vitest';
import { costOfCutting } from './cost-of-cutting.ts';

it('runs as its note says', () => {
  expect(costOfCutting({ price: 1800, coreDeposit: 400, spareCores: 0 })).toBe(400);
});

it('costs nothing with a spare core at hand, also where the deposit is not known', () => {
  expect(costOfCutting({ price: 1800, coreDeposit: 400, spareCores: 1 })).toBe(0);
  expect(costOfCutting({ price: null, coreDeposit: null, spareCores: 2 })).toBe(0);
});

it('is not known without the deposit', () => {
  expect(costOfCutting({ price: 1800, coreDeposit: null, spareCores: 0 })).toBeNull();
});
