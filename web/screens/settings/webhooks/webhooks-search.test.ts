import { expect, it } from 'vitest';
import { parseWebhooksSearch } from './webhooks-search.ts';

it('keeps which webhook is opened and the page of its log, and nothing else', () => {
  expect(parseWebhooksSearch({ open: 3, page: '2' })).toEqual({ open: '3', page: 2 });
  expect(parseWebhooksSearch({ open: '3', page: 1 })).toEqual({ open: '3' });
  expect(parseWebhooksSearch({ page: 4, other: 'x' })).toEqual({});
  expect(parseWebhooksSearch({ open: '3', page: 'x' })).toEqual({ open: '3' });
});
