import { expect, it } from 'vitest';
import { isCoolerDue } from '#server/engine/diagnosis/is-cooler-due.ts';
import { judgeCoolerRecord } from '#server/engine/diagnosis/judge-cooler-record.ts';
import { coolerDueWords, coolerLacksWords } from './cooler-words.ts';

const words = (seen: Partial<Parameters<typeof isCoolerDue>[0]>) =>
  coolerDueWords(isCoolerDue({ pan: null, cause: null, partKinds: [], ...seen }));

it('says why the cooler is due', () => {
  expect(words({ pan: 'pan_lining' })).toMatch(/^Due: lining in the pan/);
  expect(words({ pan: 'pan_metal' })).toMatch(/^Due: metal in the pan/);
  expect(words({ cause: 'damper_broken' })).toMatch(/^Due: the converter came apart/);
});

it('says that it was done, and told so where it took less time than usual', () => {
  const due = isCoolerDue({ pan: 'pan_lining', cause: null, partKinds: [] });
  expect(coolerDueWords(due, { good: true, lacks: [], short: false })).toMatch(/Done\.$/);
  expect(coolerDueWords(due, { good: true, lacks: [], short: true })).toContain('less than the 1.5 to 2 h');
  expect(coolerDueWords(due, { good: false, lacks: ['minutes'], short: false })).not.toContain('Done');
});

it('says that it is not, and what is still good practice', () => {
  expect(words({})).toBe('Not due: no lining or metal was noted.');
  expect(words({ partKinds: ['converter'] })).toContain('good practice');
});

it('says all that a record lacks, and that air and cans do not count', () => {
  const { lacks } = judgeCoolerRecord({
    done: 'flushed',
    minutes: null,
    method: 'spray_can',
    bothDirections: false,
    filterClean: true,
    flowAfterLMin: null,
  });
  const said = coolerLacksWords(lacks);
  expect(said).toContain('spray cans');
  expect(said).toContain('both directions');
  expect(said).toContain('how many minutes');
  expect(said).not.toContain('filter that stayed clean');
  expect(coolerLacksWords([])).toBe('');
});
