import { afterAll, beforeAll, expect, it } from 'vitest';
import type { MappingInput } from '#server/contract/mappings.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';
import { foreignFlow } from './foreign-flow.ts';

const ROWS = 100_000;

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.stop());

it('keeps every good and every bad line of a long foreign file that streams in', async () => {
  const flow = foreignFlow(ROWS);
  const saved = await fetch(`${app.url}/api/mappings/flow`, {
    method: 'PUT',
    headers: { authorization: `Bearer ${TEST_KEY}`, 'content-type': 'application/json' },
    body: JSON.stringify(flow.mapping satisfies MappingInput),
  });
  expect(saved.status).toBe(200);
  const answer = await app.post('/api/readings?mapping=flow&zone=UTC', flow.body(), {
    'content-type': 'text/csv',
  });
  const reply = await answer.json();
  expect(reply).toMatchObject({ received: ROWS, stored: ROWS - flow.bad, duplicate: 0, refused: flow.bad });
  expect(flow.bad).toBe(ROWS / 100);
  const [kept] = await app.client`
    select count(*)::int as n, count(distinct line)::int as lines, min(line) as first, max(line) as last,
      count(*) filter (where (line - 2) % 100 <> 99)::int as wrong, bool_and(raw like '%' || line || '%') as whole
    from refused_lines where receipt = ${reply.receipt}`;
  // Line 1 names the columns; of each hundred rows the last is bad, and names its line.
  expect(kept).toEqual({ n: flow.bad, lines: flow.bad, first: 101, last: ROWS + 1, wrong: 0, whole: true });
  const [stored] = await app.client`
    select count(*)::int as n, count(distinct (vehicle, at))::int as moments, sum(slip_rpm)::float8 as slip from readings`;
  expect(stored).toEqual({ n: ROWS - flow.bad, moments: ROWS - flow.bad, slip: flow.slip });
}, 120_000);
