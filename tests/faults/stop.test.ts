import { request } from 'node:http';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

const line = (second: number) =>
  `${JSON.stringify({
    vehicle: 'B-7',
    at: new Date(Date.UTC(2026, 2, 4, 5, 0, second)).toISOString(),
    odometer_km: 1000,
    slip_rpm: 12,
    duty_pct: 85,
    fluid_c: 85,
  })}\n`;

it('finishes a delivery in flight when asked to stop, takes no other, and ends with 0', async () => {
  const program = await serveSlipdrift({ DATABASE_URL: database.url });
  const answered = new Promise<{ status: number | undefined; body: string }>((settle, fail) => {
    const sending = request(
      `${program.url}/api/readings`,
      { method: 'POST', headers: { ...withTestKey, 'content-type': 'application/x-ndjson' } },
      (response) => {
        let body = '';
        response.setEncoding('utf8').on('data', (text) => {
          body += text;
        });
        response.on('end', () => settle({ status: response.statusCode, body }));
      },
    );
    sending.on('error', fail);
    sending.write(line(1));
    setTimeout(() => program.child.kill('SIGTERM'), 300);
    setTimeout(async () => {
      await expect(fetch(`${program.url}/health/live`)).rejects.toThrow();
      sending.end(line(2));
    }, 1000);
  });
  const { status, body } = await answered;
  expect(status).toBe(200);
  expect(JSON.parse(body)).toMatchObject({ received: 2, stored: 2 });
  expect(await program.ended).toBe(0);
  expect(await database.client`select count(*) as n from readings`).toEqual([{ n: 2 }]);
});
