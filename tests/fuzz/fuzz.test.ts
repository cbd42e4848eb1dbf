import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fuzz, hold, inputs, SHARES } from './fuzz.ts';

it('shares out all of its inputs', () => {
  expect(Object.values(SHARES).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 10);
});

it('tells of a failure how it is repeated, with the smallest input and the cause', async () => {
  const failing = fuzz('file', fc.array(fc.constant(7)), (input) =>
    hold(input.length < 3, () => 'three are too many'),
  );
  await expect(failing).rejects.toThrow(
    /^Repeat with SLIPDRIFT_FUZZ_SEED=\d+ .*tests\/fuzz\/fuzz\.test\.ts\n.*path.*\nInput: \[7, 7, 7\]\n.*three are too many/,
  );
});

it('finds what is kept of every input', async () => {
  const kept: unknown[] = [];
  const numbers = Math.ceil(5_000_000 / Math.max(4, inputs * SHARES.file));
  const leaking = fuzz('file', fc.nat(), (input) => {
    kept.push(new Array(numbers).fill(input + 0.5));
  });
  await expect(leaking).rejects.toThrow('growth of the heap');
});
