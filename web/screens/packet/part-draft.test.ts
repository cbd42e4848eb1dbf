import { expect, it } from 'vitest';
import { part } from '#server/contract/repair.ts';
import { emptyPart, readPart, toPartDraft } from './part-draft.ts';

const converter = part.parse({
  kind: 'converter',
  what: 'TC-4471',
  source: 'rebuilt',
  supplier: 'Quenby Rebuilds',
  price: 1180.5,
  core_deposit: 250,
  core: 'to_return',
});

it('reads what it wrote', () => {
  expect(readPart(toPartDraft(converter))).toEqual({ part: converter });
});

it('asks for the kind, and takes a price with a decimal comma', () => {
  expect(readPart(emptyPart).faults).toEqual({ kind: 'Choose what was replaced.' });
  expect(readPart({ ...emptyPart, kind: 'wiring', price: '12,50' }).part).toMatchObject({
    price: 12.5,
    core_deposit: null,
  });
  expect(readPart({ ...emptyPart, kind: 'wiring', price: 'dear' }).faults).toHaveProperty('price');
});
