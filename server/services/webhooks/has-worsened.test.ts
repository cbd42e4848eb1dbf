import { expect, it } from 'vitest';
import { grades } from '#server/contract/words.ts';
import { hasWorsened } from './has-worsened.ts';

it('tells a worse grade from a better one and from another good one', () => {
  const worse = [null, ...grades].flatMap((from) =>
    grades.filter((to) => hasWorsened(from, to)).map((to) => `${from} to ${to}`),
  );
  expect(worse.sort()).toEqual(
    [
      'null to hold',
      'null to book',
      'null to watch',
      'steady to hold',
      'steady to book',
      'steady to watch',
      'unknown to hold',
      'unknown to book',
      'unknown to watch',
      'watch to hold',
      'watch to book',
      'book to hold',
    ].sort(),
  );
});
