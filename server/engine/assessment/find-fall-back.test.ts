import { expect, it } from 'vitest';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { findFallBack } from './find-fall-back.ts';

const healthy = { baselineRpm: 15, baselineSd: 5 };
const { normal } = seededRandom(2);
const make = (slips: readonly number[]) => slips.map((slip, i) => makePoint(i, slip + normal()));
const rising = Array.from({ length: 20 }, (_, i) => 20 + 4 * i);
const level = (n: number, slip: number) => new Array<number>(n).fill(slip);

it('runs as its note says', () => {
  expect(findFallBack([], { baselineRpm: 15, baselineSd: 5 })).toBeNull();
});

it('finds the first stretch after a fall to healthy', () => {
  expect(findFallBack(make([...rising, ...level(10, 18)]), healthy)).toBe(20);
});

it('leaves out the stretch in which the change was made', () => {
  for (const mixed of [45, 57, 80])
    expect(findFallBack(make([...rising, mixed, ...level(10, 18)]), healthy)).toBe(21);
});

it('takes the largest of two falls', () => {
  const slips = [...level(8, 60), ...level(8, 18), ...level(8, 120), ...level(8, 18)];
  expect(findFallBack(make(slips), healthy)).toBe(24);
});

it('leaves alone a fall that does not reach healthy, a small one, and a slow one', () => {
  expect(findFallBack(make([...level(10, 120), ...level(10, 60)]), healthy)).toBeNull();
  expect(findFallBack(make([...level(10, 38), ...level(10, 18)]), healthy)).toBeNull();
  expect(findFallBack(make(Array.from({ length: 30 }, (_, i) => 110 - 3.2 * i)), healthy)).toBeNull();
});

it('does not take one low stretch for a fall', () => {
  expect(findFallBack(make(level(20, 90).with(10, 15)), healthy)).toBeNull();
});

it('does not see a fall in noise as wide as it', () => {
  const ragged = Array.from({ length: 20 }, (_, i) => makePoint(i, i % 2 === 0 ? 70 : 10));
  expect(findFallBack(ragged, healthy)).toBeNull();
});

it('needs two healthy stretches at the end, once the fall is as large as any replacement', () => {
  expect(findFallBack(make([...rising, 18]), healthy)).toBeNull();
  expect(findFallBack(make([...rising, 18, 18]), healthy)).toBe(20);
  expect(findFallBack(make([...rising, 57, 18]), healthy)).toBeNull();
  expect(findFallBack(make([...rising, 57, 18, 18]), healthy)).toBe(21);
});

it('waits for four where one of them is not healthy, or where the fall is smaller', () => {
  expect(findFallBack(make([...rising, 18, 60, 18]), healthy)).toBeNull();
  expect(findFallBack(make([...rising, 18, 60, 18, 18]), healthy)).toBe(20);
  expect(findFallBack(make([...level(10, 58), ...level(2, 18)]), healthy)).toBeNull();
  expect(findFallBack(make([...level(10, 58), ...level(4, 18)]), healthy)).toBe(10);
});

it('does not take two low stretches for a fall that scatter by as much', () => {
  const vague = [...rising, 18, 18].map((slip, i) => makePoint(i, slip, { seRpm: 15 }));
  expect(findFallBack(vague, healthy)).toBeNull();
  const sharp = vague.map((point) => ({ ...point, seRpm: 5 }));
  expect(findFallBack(sharp, healthy)).toBe(20);
});

it('does not see a fall where two low stretches lie within the series', () => {
  expect(findFallBack(make(level(20, 90).with(10, 15).with(11, 15)), healthy)).toBeNull();
});

it('says nothing below 6 stretches', () => {
  expect(findFallBack(make([...level(3, 90), ...level(2, 15)]), healthy)).toBeNull();
  expect(findFallBack(make([...level(4, 90), 15]), healthy)).toBeNull();
  expect(findFallBack(make([...level(4, 90), ...level(2, 15)]), healthy)).toBe(4);
});
