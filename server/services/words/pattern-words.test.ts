import { expect, it } from 'vitest';
import { patterns } from '#server/contract/words.ts';
import { patternWords } from './pattern-words.ts';

it.each(patterns)('puts its own sentence to %s', (pattern) => {
  const words = patternWords(pattern);
  expect(words).toMatch(/^[A-Z].*[.?]$/);
  expect(patterns.filter((other) => patternWords(other) === words)).toEqual([pattern]);
});

it('says what evidence is consistent with, and diagnoses nothing', () => {
  for (const pattern of patterns)
    expect(patternWords(pattern)).not.toMatch(/\b(replace|is caused|has failed)\b/);
});
