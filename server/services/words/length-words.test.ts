import { describe, expect, it } from 'vitest';
import { mileageWords, spanWords, wayWords } from './length-words.ts';

// 1 mile is 1.609344 km (NIST SP 811).
describe('an odometer', () => {
  it('is said to the nearest 100', () => {
    expect(mileageWords(203_449, 'metric')).toBe('203,400 km');
    expect(mileageWords(203_450, 'metric')).toBe('203,500 km');
    expect(mileageWords(0, 'metric')).toBe('0 km');
  });
  it('is said in miles where asked', () => {
    expect(mileageWords(160_934.4, 'imperial')).toBe('100,000 mi');
  });
});

describe('a way', () => {
  it.each([
    [0, '0 km'],
    [4.4, '4 km'],
    [12.4, '12 km'],
    [347, '350 km'],
    [9_449, '9,400 km'],
    [12_600, '13,000 km'],
    [99_600, '100,000 km'],
  ])('of %d km is said to two figures: %s', (km, words) => {
    expect(wayWords(km, 'metric')).toBe(words);
  });
  it('is rounded in the unit it is said in', () => {
    expect(wayWords(8_046.72, 'imperial')).toBe('5,000 mi');
  });
});

it('says a span with its unit once', () => {
  expect(spanWords(1_903, 5_180, 'metric')).toBe('in 1,900 to 5,200 km');
  expect(spanWords(0, 804.672, 'imperial')).toBe('within 500 mi');
});
