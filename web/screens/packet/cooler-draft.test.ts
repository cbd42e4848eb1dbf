import { expect, it } from 'vitest';
import { coolerRecord } from '#server/contract/repair.ts';
import { readCooler, toCoolerDraft } from './cooler-draft.ts';

const flushed = coolerRecord.parse({
  done: 'flushed',
  minutes: 95,
  method: 'pumped_through_filter',
  both_directions: true,
  filter_clean: true,
  flow_after_l_min: 3.4,
});

it('reads what it wrote', () => {
  expect(readCooler(toCoolerDraft(flushed))).toEqual({ cooler: flushed });
});

it('lets go of what belongs to flushing where the cooler was replaced', () => {
  expect(readCooler({ ...toCoolerDraft(flushed), done: 'replaced' }).cooler).toMatchObject({
    done: 'replaced',
    minutes: null,
    method: null,
    both_directions: false,
    flow_after_l_min: 3.4,
  });
});

it('asks what was done', () => {
  expect(readCooler(toCoolerDraft(null)).faults).toEqual({ done: 'Choose one.' });
});
