import { afterEach, beforeEach, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { problem } from '#server/contract/problems.ts';
import { auditStorage } from '#tests/helpers/faults/audit-storage.ts';
import { createFaultFeed, type FaultDelivery } from '#tests/helpers/faults/fault-feed.ts';
import { createGateway, sendAll } from '#tests/helpers/faults/gateway.ts';
import { createPlainPostgres, type PlainPostgres } from '#tests/helpers/faults/plain-postgres.ts';
import { reportFault } from '#tests/helpers/faults/report-fault.ts';
import { canMount, limitFiles, mountSmallDisk, type SmallDisk } from '#tests/helpers/faults/small-disk.ts';
import { type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { TEST_KEY, withTestKey } from '#tests/helpers/test-key.ts';

let database: PlainPostgres;
let disk: SmallDisk | undefined;
let program: Served | undefined;
beforeEach(async () => {
  database = await createPlainPostgres();
});
afterEach(async () => {
  await program?.kill('SIGTERM');
  await database.end('immediate');
  disk?.remove();
  await database.remove();
});

const limited = { name: 'files of PostgreSQL limited to 1.7 MB (EFBIG)', make: limitFiles };
const mounted = { name: 'tables on a file system of 18 MiB (ENOSPC)', make: mountSmallDisk };

it.each(canMount() ? [mounted, limited] : [limited])(
  'answers 507, stores nothing by halves and goes on when there is room: $name',
  async ({ name, make }) => {
    disk = await make(database);
    program = await serveSlipdrift({ DATABASE_URL: disk.url, SLIPDRIFT_API_KEY: TEST_KEY });
    const { url } = program;
    const feed = createFaultFeed({ seed: 4, largeShare: 0.5, largest: 16_000 });
    const gateway = createGateway({ url: () => url });
    const refused: { delivery: FaultDelivery; detail: string }[] = [];
    for (let sent = 0; refused.length < 6 && sent < 400; sent++) {
      const delivery = feed.next();
      const response = await fetch(`${url}/api/readings`, {
        method: 'POST',
        headers: {
          ...withTestKey,
          'content-type': 'application/x-ndjson',
          ...(delivery.key === null ? {} : { 'idempotency-key': delivery.key }),
        },
        body: delivery.body,
      });
      if (response.status === 200) {
        gateway.acknowledged.push({ delivery, reply: await response.json() });
        continue;
      }
      expect(response.status, await response.clone().text()).toBe(507);
      expect(response.headers.get('content-type')).toBe('application/problem+json');
      refused.push({ delivery, detail: problem.parse(await response.json()).detail });
    }
    expect(refused).toHaveLength(6);
    expect(gateway.acknowledged.length).toBeGreaterThan(5);
    for (const { detail } of refused)
      expect(detail).toMatch(/full\. (Nothing of this|Of this body \d+ lines)/);
    const { client, close } = openDatabase(disk.url, { connections: 1 });
    const whileFull = await auditStorage(client, gateway.acknowledged);
    expect(whileFull).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
    const list = await fetch(`${url}/api/ranking`, { headers: withTestKey });
    expect(list.status).toBe(200);

    await disk.makeRoom();
    const startedMs = Date.now();
    await sendAll(
      gateway,
      refused.map(({ delivery }) => delivery),
      2,
    );
    const againMs = [Date.now() - startedMs];
    await sendAll(gateway, [feed.next(), feed.next()], 2);
    expect(gateway.wrong).toEqual([]);
    const assessed = await fetch(`${url}/api/assess`, { method: 'POST', headers: withTestKey });
    expect(assessed.status).toBe(200);
    const audit = await auditStorage(client, gateway.acknowledged);
    await close();
    reportFault({
      fault: 'disk full',
      made: `${name}: ${refused.length} answers of 507`,
      tried: gateway.acknowledged.length,
      ...audit,
      againMs,
    });
    expect(audit).toMatchObject({ lost: 0, twice: 0, disagreements: [] });
  },
);
