import { afterAll, beforeAll, expect, it } from 'vitest';
import { ranking } from '#server/contract/ranking.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { storeMadeFleet } from '#tests/helpers/store-made-fleet.ts';

let app: TestApp;
let whole: SignedInPerson;
let part: SignedInPerson;
beforeAll(async () => {
  app = await startApp();
  await storeMadeFleet(app.running.context, 120);
  whole = await signInAs(app, 'planner');
  part = await signInAs(app, 'planner', { depots: ['depot-1'] });
});
afterAll(() => app?.stop());

const read = async ({ cookie }: SignedInPerson, encoding = 'identity') => {
  const answer = await fetch(`${app.url}/api/ranking?limit=1000`, {
    headers: { cookie, 'accept-encoding': encoding },
  });
  return { text: await answer.text(), encoding: answer.headers.get('content-encoding') };
};

it('is for each who asks at the same time what it would be alone', async () => {
  const [ofWhole, ofPart] = [await read(whole), await read(part)];
  expect(ranking.parse(JSON.parse(ofPart.text)).total).toBeLessThan(30);
  expect(ranking.parse(JSON.parse(ofWhole.text)).total).toBe(120);
  const together = await Promise.all(
    Array.from({ length: 24 }, (_, i) => read(i % 3 === 0 ? part : whole, i % 2 === 0 ? 'gzip' : 'identity')),
  );
  for (const [i, { text, encoding }] of together.entries()) {
    expect(text).toBe((i % 3 === 0 ? ofPart : ofWhole).text);
    expect(encoding).toBe(i % 2 === 0 ? 'gzip' : null);
  }
});

it('is never older than the request', async () => {
  for (const left of [119, 118, 117]) {
    const before = Array.from({ length: 6 }, () => read(whole));
    await app.client`update vehicles set retired = true where key = (select max(key) from vehicles where not retired)`;
    const after = await Promise.all(Array.from({ length: 6 }, () => read(whole)));
    expect(after.map(({ text }) => ranking.parse(JSON.parse(text)).total)).toEqual(Array(6).fill(left));
    await Promise.all(before);
  }
});
