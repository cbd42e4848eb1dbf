import { Hono } from 'hono';
import { expect, it } from 'vitest';
import { answerProblems } from '#server/middleware/answer-problems.ts';
import { nobody } from '#server/services/actor.ts';
import type { RequestEnv } from './deps.ts';
import { createHold } from './hold-bytes.ts';
import { withBytes } from './read-bytes.ts';

const wanted = { maxBytes: 1000, idleMs: 60_000, types: /^text\// };

it('holds files up to a limit together, and has room again once they were used', async () => {
  const hold = createHold(1500);
  const waiting: (() => void)[] = [];
  const app = new Hono<RequestEnv>()
    .use(async (c, next) => {
      c.set('context', { actor: nobody } as RequestEnv['Variables']['context']);
      await next();
    })
    .post('/', (c) =>
      withBytes(
        c,
        wanted,
        (bytes) => new Promise<Response>((done) => waiting.push(() => done(c.text(`${bytes.length}`)))),
        hold,
      ),
    );
  app.onError(answerProblems({ error: () => undefined } as never));
  const send = () =>
    app.request('/', { method: 'POST', body: 'x'.repeat(1000), headers: { 'content-type': 'text/csv' } });
  const first = send();
  await expect.poll(() => waiting.length).toBe(1);
  const second = await send();
  expect([second.status, second.headers.get('retry-after')]).toEqual([503, '10']);
  waiting[0]?.();
  expect(await (await first).text()).toBe('1000');
  const third = send();
  await expect.poll(() => waiting.length).toBe(2);
  waiting[1]?.();
  expect((await third).status).toBe(200);
});
