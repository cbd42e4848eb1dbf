import { expect, it } from 'vitest';
import { expectedCurrent } from './expected-current.ts';

// 24 V over 6 ohm is 4 A by Ohm's law; 25 % of it is 1 A.
it('runs as its note says', () => {
  const { expectedA, lowA, highA } = expectedCurrent({
    ohm: 5.5,
    supplyV: 24,
    wiringOhm: 0.5,
    tolerancePct: 25,
  });
  expect([expectedA, lowA, highA]).toEqual([4, 3, 5]);
});

// IEC 60028: 0.00393 per K at 20 degC; 80 K more make 10 ohm 13.144 ohm.
it('draws less through a hot coil, whose wiring stays as it was', () => {
  const { hotA } = expectedCurrent({ ohm: 10, supplyV: 12, wiringOhm: 2, tolerancePct: 10 });
  expect(hotA).toBeCloseTo(12 / (13.144 + 2), 12);
});

it('throws without any resistance', () => {
  expect(() => expectedCurrent({ ohm: 0, supplyV: 12, wiringOhm: 0, tolerancePct: 25 })).toThrow(
    'expectedCurrent requires',
  );
});
