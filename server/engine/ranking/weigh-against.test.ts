import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type CostTerms, weighAgainst } from './weigh-against.ts';

const bus: CostTerms = { chance: 0.5, atStake: 5_800, inspection: 180 };

it('runs as its note says', () => {
  expect(
    weighAgainst({ chance: 0.5, atStake: 100, inspection: 9 }, { chance: 0.25, atStake: 100, inspection: 9 }),
  ).toEqual([{ term: 'chance', worth: 25 }]);
});

it('names each kind of difference where it alone decides', () => {
  expect(weighAgainst(bus, { ...bus, chance: 0.25 })).toEqual([{ term: 'chance', worth: 1_450 }]);
  expect(weighAgainst(bus, { ...bus, atStake: 5_000 })).toEqual([{ term: 'atStake', worth: 400 }]);
  expect(weighAgainst(bus, { ...bus, inspection: 300 })).toEqual([{ term: 'inspection', worth: 120 }]);
  expect(weighAgainst(bus, bus)).toEqual([]);
});

it('gives what speaks for the second a minus, and the weightiest first', () => {
  expect(weighAgainst(bus, { chance: 0.6, atStake: 1_000, inspection: 200 })).toEqual([
    { term: 'atStake', worth: expect.closeTo(4_800 * 0.55, 9) },
    { term: 'chance', worth: expect.closeTo(-0.1 * 3_400, 9) },
    { term: 'inspection', worth: 20 },
  ]);
});

it('adds up to the difference, whatever the terms', () => {
  const money = fc.double({ min: 0, max: 1e6, noNaN: true });
  const terms = fc.record({
    chance: fc.double({ min: 0, max: 1, noNaN: true }),
    atStake: money,
    inspection: money,
  });
  const avoided = ({ chance, atStake, inspection }: CostTerms) => chance * atStake - inspection;
  fc.assert(
    fc.property(terms, terms, (first, second) => {
      const sum = weighAgainst(first, second).reduce((total, { worth }) => total + worth, 0);
      expect(sum).toBeCloseTo(avoided(first) - avoided(second), 6);
    }),
    { seed: 20_260_304 },
  );
});
