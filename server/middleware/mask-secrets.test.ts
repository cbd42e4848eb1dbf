import { expect, it } from 'vitest';
import { maskSecrets } from './mask-secrets.ts';

it.each([
  '/api/feeds/q7XyZ.ics',
  '/api/feeds/q7XyZ',
  '/api/feeds/q7XyZ.ics/more',
  '//api//feeds/q7XyZ.ics',
  '/API/Feeds/q7XyZ.ics',
  '/elsewhere/feeds/q7XyZ.ics',
])('leaves nothing of a secret in %s', (path) => {
  expect(maskSecrets(path)).not.toContain('q7');
  expect(maskSecrets(path)).toMatch(/feeds\/…$/i);
});

it('leaves other paths alone', () => {
  expect(maskSecrets('/api/depots/north/feed')).toBe('/api/depots/north/feed');
  expect(maskSecrets('/api/vehicles/feeds')).toBe('/api/vehicles/feeds');
});
