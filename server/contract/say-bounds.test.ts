import { expect, it } from 'vitest';
import { z } from 'zod';
import { sayBounds } from './say-bounds.ts';

const said = (schema: z.ZodType, value: unknown) =>
  schema.safeParse(value, { error: sayBounds }).error?.issues[0]?.message;

it.each<[z.ZodType, unknown, string]>([
  [z.number().min(0.25), 0.1, 'must be 0.25 or more'],
  [z.number().max(24), 30, 'must be 24 or less'],
  [z.number().positive(), 0, 'must be more than 0'],
  [z.int().lt(10), 10, 'must be less than 10'],
  [z.string().min(1), '', 'must not be empty'],
  [z.string().max(5), 'too long', 'must be at most 5 characters long'],
  [z.array(z.int()).min(1), [], 'must have at least 1 element'],
  [z.array(z.int()).max(2), [1, 2, 3], 'must have at most 2 elements'],
])('says it in plain words: %#', (schema, value, words) => {
  expect(said(schema, value)).toBe(words);
});

it('leaves everything else, and words of a schema, as they are', () => {
  expect(said(z.number(), 'x')).toBe('Invalid input: expected number, received string');
  expect(said(z.number().min(3, 'three is the least'), 1)).toBe('three is the least');
});
