import { expect, it } from 'vitest';
import { makePeople } from '#tests/browser/fixtures/access-fixture.ts';
import { parsePeopleSearch, pickPeople } from './people-search.ts';

it('takes a search and an opened line from the address', () => {
  expect(parsePeopleSearch({ q: ' maren ', open: 'p-3', else: 'x' })).toEqual({ q: 'maren', open: 'p-3' });
  expect(parsePeopleSearch({ q: 5, open: '' })).toEqual({});
});

it('finds by name, e-mail and role, and puts closed accounts last', () => {
  const people = makePeople(40);
  expect(pickPeople(people, undefined)).toHaveLength(40);
  expect(pickPeople(people, 'ANALYST').every(({ role }) => role === 'analyst')).toBe(true);
  const states = pickPeople(people, '').map(({ state }) => state);
  expect(states.indexOf('closed')).toBeGreaterThan(states.findLastIndex((state) => state !== 'closed'));
  expect(pickPeople(people, 'nobody-like-this')).toEqual([]);
});
