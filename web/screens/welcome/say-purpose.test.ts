import { expect, it } from 'vitest';
import { sayPurpose } from './say-purpose.ts';

const address = {
  name: 'Maren Oduya',
  email: 'maren@harrow.example',
  expires_at: '2026-03-11T12:00:00Z',
};

it('says for each purpose whose it is and until when', () => {
  expect(sayPurpose({ ...address, purpose: 'invitation' })).toEqual({
    title: 'Welcome, Maren Oduya',
    words: expect.stringMatching(/as maren@harrow\.example\..* until 11 Mar 2026/),
  });
  expect(sayPurpose({ ...address, purpose: 'reset' }).words).toMatch(/password for maren@harrow\.example/);
  const first = sayPurpose({ ...address, name: null, email: null, purpose: 'first_admin' });
  expect(first.words).toMatch(/first account.* until 11 Mar 2026/);
});
