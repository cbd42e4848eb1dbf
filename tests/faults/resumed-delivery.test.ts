import { request } from 'node:http';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed, type FaultDelivery } from '#tests/helpers/faults/fault-feed.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

let database: TestDatabase;
let program: Served;
beforeAll(async () => {
  database = await createTestDatabase();
  program = await serve();
});
afterAll(async () => {
  await program.kill('SIGTERM');
  await database.drop();
});

const serve = () => serveSlipdrift({ DATABASE_URL: database.url, SLIPDRIFT_API_KEY: TEST_KEY });

/** Sends all but the last line, slowly enough that a first batch is stored, and leaves the connection open. */
function sendMost({ body, key }: FaultDelivery) {
  const sending = request(`${program.url}/api/readings`, {
    method: 'POST',
    headers: {
      ...withTestKey,
      'content-type': 'application/x-ndjson',
      ...(key === null ? {} : { 'idempotency-key': key }),
    },
  });
  sending.on('error', () => {});
  const half = Math.floor(body.length / 2);
  sending.write(body.slice(0, half));
  setTimeout(() => sending.destroyed || sending.write(body.slice(half, -20)), 700);
  return sending;
}

/** Tried again where it waits in a circle with the assessment that is under way. */
async function clear(): Promise<void> {
  await expect
    .poll(() =>
      database.client`truncate readings, receipts, refused_lines, touched_vehicles, stretch_totals, lives, shop_vehicles, bookings, vehicles cascade`.then(
        () => 'cleared',
        (error: { code?: string }) => error.code,
      ),
    )
    .toBe('cleared');
}

const countBegun = async () =>
  Number((await database.client`select count(*) as n from receipts where received >= 5000`)[0]?.n);

it.each([
  { how: 'the program is killed', from: 1 },
  { how: 'the sender is cut off', from: 1_500_000 },
  { how: 'the sender is cut off twice', from: 3_000_000 },
])(
  'keeps each line once, with one receipt for a key, where $how between two batches',
  async ({ how, from }) => {
    await clear();
    const feed = createFaultFeed({ seed: from, largeShare: 1, largest: 18_000, from, prefix: `K${from}` });
    const deliveries = [feed.next(), feed.next(), feed.next(), feed.next()];
    const begun = deliveries.map(sendMost);
    await expect.poll(countBegun, { timeout: 20_000 }).toBe(deliveries.length);
    if (how === 'the program is killed') {
      await program.kill('SIGKILL');
      program = await serve();
    } else for (const sending of begun) sending.destroy();
    if (how === 'the sender is cut off twice') {
      const keyed = deliveries.filter(({ key }) => key !== null);
      const at = await database.client`select max(at) as at from receipts`;
      const again = async () =>
        Number((await database.client`select count(*) as n from receipts where at > ${at[0]?.at}`)[0]?.n);
      // A key is in use until the first try has been put away.
      await expect
        .poll(
          async () => {
            for (const sending of keyed.map(sendMost)) setTimeout(() => sending.destroy(), 400);
            await new Promise((settle) => setTimeout(settle, 600));
            return again();
          },
          { timeout: 20_000 },
        )
        .toBeGreaterThanOrEqual(keyed.length);
    }

    const gateway = createGateway({ url: () => program.url });
    await sendAll(gateway, deliveries, 2);
    const audit = await auditStorage(database.client, gateway.acknowledged);
    reportFault({ fault: 'cut off between batches', made: how, tried: deliveries.length, ...audit });
    expect(gateway.wrong).toEqual([]);
    expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
    for (const { delivery, reply } of gateway.acknowledged)
      if (delivery.key !== null)
        expect(reply).toMatchObject({ stored: delivery.numbers.length, duplicate: 0 });
  },
);
