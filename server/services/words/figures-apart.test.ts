import { describe, expect, it } from 'vitest';
import { chancesApart, chanceWords, rpmApart, sumsApart, sumWords } from './figures-apart.ts';

describe('chances set against each other', () => {
  it.each([
    [0.62, 0.2, ['62 %', '20 %']],
    [0.621, 0.619, ['62.1 %', '61.9 %']],
    [0.99999, 0.5, ['over 99 %', '50 %']],
    [0.004, 0.003, ['0.4 %', '0.3 %']],
    [0.0002, 0.5, ['under 1 %', '50 %']],
    [1, 0.999, ['100 %', 'over 99 %']],
  ])('%d and %d', (a, b, words) => expect(chancesApart(a, b)).toEqual(words));

  it('that no sensible figure tells apart have none', () => {
    expect(chancesApart(1 - 1e-13, 1 - 1e-12)).toBeNull();
    expect(chancesApart(0.5, 0.5)).toBeNull();
  });

  it('are never a certainty that they are not', () => {
    expect(chanceWords(0.9999)).toBe('over 99 %');
    expect(chanceWords(0.0001, 2)).toBe('0.01 %');
    expect(chanceWords(0.00001, 2)).toBe('under 0.01 %');
    expect([chanceWords(0), chanceWords(1)]).toEqual(['0 %', '100 %']);
  });
});

describe('sums set against each other', () => {
  it.each([
    [3_412, 1_077, ['3,400', '1,100']],
    [5_624.2, 5_583.9, ['5,624', '5,584']],
    [-179.04, -179.4, ['-179.0', '-179.4']],
    [12, 7, ['12', '7']],
  ])('%d and %d', (a, b, words) => expect(sumsApart(a, b)).toEqual(words));

  it('that differ by less than a hundredth have none', () => expect(sumsApart(5, 5.001)).toBeNull());
  it('alone have two figures', () => expect([4_149, 99, 7.4].map(sumWords)).toEqual(['4,100', '99', '7']));
});

it('says slip in whole rpm where that is enough', () => {
  expect(rpmApart(31.2, 2.9)).toEqual(['31 rpm', '3 rpm']);
  expect(rpmApart(3.12, 2.94)).toEqual(['3.1 rpm', '2.9 rpm']);
});
