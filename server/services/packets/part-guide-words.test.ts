import { expect, it } from 'vitest';
import { partGuideWords } from './part-guide-words.ts';

const guide = {
  price: 1800,
  core_deposit: 400,
  supplier: null,
  spare_cores: 0,
  known_from: null,
  cutting_costs: 400,
};

it.each([
  [{}, 'Cutting the old one open costs that deposit of 400'],
  [{ spare_cores: 1, cutting_costs: 0 }, 'a spare core is at hand'],
  [{ spare_cores: 3, cutting_costs: 0 }, '3 spare cores are at hand'],
  [{ core_deposit: 0, cutting_costs: 0 }, 'no core deposit is held. Cutting the old one open costs nothing.'],
  [{ core_deposit: null, cutting_costs: null }, 'ask for the deposit before cutting'],
  [{ price: null, core_deposit: null, cutting_costs: null }, 'not known yet'],
])('says of %o what it costs', (some, words) => {
  expect(partGuideWords({ ...guide, ...some })).toContain(words);
});

it('names price and deposit', () => {
  expect(partGuideWords(guide)).toMatch(/^A converter costs 1,800, and 400 are held/);
});
