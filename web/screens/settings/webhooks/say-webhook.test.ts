import { expect, it } from 'vitest';
import type { WebhookPost } from '#server/contract/webhooks.ts';
import { sayTries } from './say-webhook.ts';

it('says how often an event was tried and what came of it', () => {
  const say = (state: WebhookPost['state'], tries: number) =>
    sayTries({ state, tries, next_at: null } as WebhookPost);
  expect([
    say('given', 1),
    say('given', 3),
    say('given_up', 12),
    say('waiting', 0),
    say('waiting', 2),
  ]).toEqual([
    'confirmed',
    'confirmed, tried 3 times',
    'given up, tried 12 times',
    'waits to be sent',
    'tried twice',
  ]);
});
