import { expect, it } from 'vitest';
import { sayUnplaced } from './say-unplaced.ts';

it('says what a vehicle lacks, and why it matters', () => {
  expect(sayUnplaced({ depot: null, platform: null })).toBe(
    'Known from its readings alone. It needs a platform, so that its own limit and costs count, and a depot, so that it can be booked.',
  );
  expect(sayUnplaced({ depot: 'n', platform: null })).toContain('needs a platform');
  expect(sayUnplaced({ depot: null, platform: 'p' })).toContain('needs a depot');
  expect(sayUnplaced({ depot: 'n', platform: 'p' })).toBe(null);
});
