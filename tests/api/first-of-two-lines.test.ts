import { afterAll, beforeAll, expect, it } from 'vitest';
import { deliveryReply } from '#server/contract/receipts.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app?.stop());

/** Lines until a batch is nearly full, then pairs until it is well over: one of them ends it wherever the body is cut. */
const BEFORE = 19_000;
const PAIRS = 1_000;
const FIRST_RPM = 11;
const SECOND_RPM = 22;

const lineOf = (second: number, slipRpm: number, vehicle = 'B-1') => {
  const at = new Date(Date.UTC(2026, 2, 1) + second * 1000).toISOString();
  return `{"vehicle":"${vehicle}","at":"${at}","odometer_km":1000,"slip_rpm":${slipRpm},"duty_pct":80}`;
};
/** The same unit, written so that the line is not read the short way. */
const ESCAPED = 'B\\u002d1';

it.each([
  { first: ESCAPED, second: 'B-1' },
  { first: 'B-1', second: ESCAPED },
])(
  'of two lines with the same vehicle and moment the first is stored, wherever a batch ends: $first',
  async ({ first, second }) => {
    await app.client`truncate readings, reading_spans, sender_weeks`;
    const lines = Array.from({ length: BEFORE }, (_, i) => lineOf(i, 5));
    for (let i = BEFORE; i < BEFORE + PAIRS; i++)
      lines.push(lineOf(i, FIRST_RPM, first), lineOf(i, SECOND_RPM, second));
    const answer = await app.post('/api/readings', lines.join('\n'), {
      'content-type': 'application/x-ndjson',
    });
    expect(deliveryReply.parse(await answer.json())).toMatchObject({
      received: BEFORE + 2 * PAIRS,
      stored: BEFORE + PAIRS,
      duplicate: PAIRS,
      refused: 0,
    });
    const found = await app.client`select slip_rpm as rpm, count(*) as n from readings group by 1 order by 1`;
    expect(found.map(({ rpm, n }) => [Number(rpm), Number(n)])).toEqual([
      [5, BEFORE],
      [FIRST_RPM, PAIRS],
    ]);
  },
);
