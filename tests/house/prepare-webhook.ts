import { z } from 'zod';
import { newWebhook, webhook } from '#server/contract/webhooks.ts';
import type { DemoPerson } from '#tests/helpers/sign-in-demo.ts';
import { startReceiver } from '#tests/helpers/start-receiver.ts';

/** A webhook whose receiver answers once and fails once, for the picture of its log; answers its id. */
export async function prepareWebhook({ ask }: DemoPerson): Promise<number> {
  const there = z.array(webhook).parse(await (await ask('/api/webhooks')).json());
  const [known] = there.filter(({ state }) => state === 'active');
  if (known !== undefined) return known.id;
  const receiver = await startReceiver();
  const input = { name: 'Yard gate', url: receiver.url, grades: ['hold', 'book'] };
  const made = newWebhook.parse(await (await ask('/api/webhooks', 'POST', input)).json());
  receiver.reply = (count) =>
    count === 1 ? { status: 503, text: 'Maintenance until noon' } : { status: 204 };
  for (let i = 0; i < 2; i += 1) await ask(`/api/webhooks/${made.webhook.id}/trial`, 'POST', {});
  await receiver.stop();
  return made.webhook.id;
}
