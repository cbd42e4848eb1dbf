import { expect, it } from 'vitest';
import { type CoolerRecord, judgeCoolerRecord } from './judge-cooler-record.ts';

const flushed: CoolerRecord = {
  done: 'flushed',
  minutes: 100,
  method: 'pumped_through_filter',
  bothDirections: true,
  filterClean: true,
  flowAfterLMin: null,
};

it('runs as its note says', () => {
  expect(judgeCoolerRecord(null)).toEqual({ good: false, lacks: ['not_done'], short: false });
});

it('is good for a cooler that was replaced, or flushed as it should be', () => {
  expect(judgeCoolerRecord(flushed)).toEqual({ good: true, lacks: [], short: false });
  const replaced = { ...flushed, done: 'replaced', minutes: null, method: null, filterClean: false } as const;
  expect(judgeCoolerRecord(replaced)).toEqual({ good: true, lacks: [], short: false });
});

it.each([
  ['nothing was done', { done: 'not_done' }, ['not_done']],
  ['compressed air alone', { method: 'compressed_air' }, ['method_does_not_count']],
  ['a spray can', { method: 'spray_can' }, ['method_does_not_count']],
  ['another way', { method: 'other' }, ['method_does_not_count']],
  ['no word how', { method: null }, ['method']],
  ['one direction', { bothDirections: false }, ['both_directions']],
  ['a filter that still caught something', { filterClean: false }, ['filter_clean']],
  ['no minutes', { minutes: null }, ['minutes']],
  ['0 minutes', { minutes: 0 }, ['minutes']],
  ['too little flow afterwards', { flowAfterLMin: 2 }, ['flow_after']],
] as const)('lacks something with %s', (_, some, lacks) => {
  expect(judgeCoolerRecord({ ...flushed, ...some })).toEqual({ good: false, lacks, short: false });
});

it('takes a shorter flush with a clean filter, and tells; not without', () => {
  expect(judgeCoolerRecord({ ...flushed, minutes: 89 })).toEqual({ good: true, lacks: [], short: true });
  expect(judgeCoolerRecord({ ...flushed, minutes: 90 }).short).toBe(false);
  expect(judgeCoolerRecord({ ...flushed, minutes: 20, filterClean: false }).good).toBe(false);
});

it('lacks enough flow after replacing too', () => {
  expect(judgeCoolerRecord({ ...flushed, done: 'replaced', flowAfterLMin: 1 }).lacks).toEqual(['flow_after']);
});
