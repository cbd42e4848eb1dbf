import { expect, it } from 'vitest';
import { causeWords, outcomeWords, partWords } from '#server/contract/packet-words.ts';
import { causes, findingResults, outcomes, partKinds } from '#server/contract/words.ts';
import { resultWords } from './result-words.ts';

it.each([
  ['causes', causes, causeWords],
  ['outcomes', outcomes, outcomeWords],
  ['parts', partKinds, partWords],
  ['results', findingResults, resultWords],
] as const)('has words of their own for all %s', (_, list, words: Record<string, string>) => {
  expect(Object.keys(words).toSorted()).toEqual([...list].toSorted());
  expect(new Set(Object.values(words)).size).toBe(list.length);
});
