import { expect, it } from 'vitest';
import { programActor } from '#server/services/actor.ts';
import { toFilter as filterOf } from './to-filter.ts';

const toFilter = (query: Parameters<typeof filterOf>[1]) => filterOf({ actor: programActor('test') }, query);

it('takes one grade or several', () => {
  expect(toFilter({ grade: 'hold' }).grades).toEqual(['hold']);
  expect(toFilter({ grade: 'hold,book,' }).grades).toEqual(['hold', 'book']);
});

it('filters by no grade where none is named', () => {
  expect(toFilter({}).grades).toBeUndefined();
  expect(toFilter({ grade: '' }).grades).toBeUndefined();
});

it('refuses a word that is no grade, and names it', () => {
  expect(() => toFilter({ grade: 'hold,urgent' })).toThrow("'urgent' is no grade");
});
