import { expect, it } from 'vitest';
import { sayDepots } from './say-depots.ts';

const nameOf = (id: string) => id.toUpperCase();

it('names few depots and counts many', () => {
  expect(sayDepots(null, nameOf)).toBe('all depots');
  expect(sayDepots([], nameOf)).toBe('no depot');
  expect(sayDepots(['a'], nameOf)).toBe('A');
  expect(sayDepots(['a', 'b'], nameOf)).toBe('A and B');
  expect(sayDepots(['a', 'b', 'c', 'd'], nameOf)).toBe('A, B, C and D');
  expect(sayDepots(['a', 'b', 'c', 'd', 'e'], nameOf)).toBe('A, B, C and 2 more');
});
