import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type MappingInput, mapping as mappingSchema } from '#server/contract/mappings.ts';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { receiveDelivery } from '#server/services/intake/receive-delivery.ts';
import { correctLine } from '#server/services/intake-desk/correct-line.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';

let database: TestDatabase;
let ctx: Context;
beforeAll(async () => {
  database = await createTestDatabase();
  ctx = {
    db: database.db,
    now: () => new Date(),
    log: pino({ level: 'silent' }),
    actor: programActor('a gateway'),
  };
});
afterAll(() => database?.drop());

const long = mappingSchema.parse({
  layout: 'long',
  columns: ['vehicle', 'time', 'name', 'value'].map((takes) => ({ column: takes, takes })),
  names: [
    { name: 'odo', field: 'odometer_km' },
    { name: 'slip', field: 'slip_rpm' },
    { name: 'duty', field: 'duty_pct' },
  ],
} as MappingInput);

/** Delivers these rows under a key; `cut` loses the connection after them. */
function deliver(
  rows: readonly string[],
  { key, isLong, cut }: { key: string; isLong: boolean; cut: boolean },
) {
  async function* body() {
    yield Buffer.from(`${rows.join('\n')}\n`);
    if (cut) throw new Error('the connection ended');
  }
  return receiveDelivery(ctx, {
    body: body(),
    format: 'csv',
    contentType: 'text/csv',
    mapping: isLong ? long : null,
    given: {},
    file: null,
    gzip: false,
    limitBytes: 1e9,
    ignoreUnknownColumns: false,
    idempotencyKey: key,
  });
}

const keptOf = (receipt: string) => database.client<{ id: number; line: number; state: string }[]>`
  select id::int, line, state from refused_lines where receipt = ${receipt} order by line, id`;

describe('a delivery that broke off and comes again', () => {
  it('keeps nothing of moments that were not whole, once they have come whole', async () => {
    const at = (minute: number) => `2026-03-04T05:0${minute}:00Z`;
    const rows = [
      'vehicle,time,name,value',
      ...[0, 1, 2].map((minute) => `L-1,${at(minute)},odo,${1000 + minute}`),
      `L-1,${at(3)},odo,none`,
      ...[0, 1, 2].map((minute) => `L-1,${at(minute)},slip,12`),
      ...[0, 1, 2].map((minute) => `L-1,${at(minute)},duty,85`),
    ];
    const first = await deliver(rows.slice(0, 9), { key: 'long', isLong: true, cut: true });
    expect(first.reply).toMatchObject({ stored: 1, refused: 3 });
    const again = await deliver(rows.slice(0, 9), { key: 'long', isLong: true, cut: true });
    expect(again.reply.receipt).toBe(first.reply.receipt);
    expect((await keptOf(first.reply.receipt)).map(({ line }) => line)).toEqual([3, 4, 5]);
    const whole = await deliver(rows, { key: 'long', isLong: true, cut: false });
    expect(whole.reply).toMatchObject({ receipt: first.reply.receipt, stored: 3, duplicate: 0, refused: 1 });
    expect((await keptOf(first.reply.receipt)).map(({ line }) => line)).toEqual([5]);
  });

  it('leaves lines that were let in meanwhile as they are', async () => {
    const rows = [
      'vehicle,at,odometer_km,slip_rpm,duty_pct',
      'L-2,2026-03-04T05:06:07Z,1000,12,850',
      'L-2,2026-03-04T05:07:07Z,1001,12,850',
      'L-2,2026-03-04T05:08:07Z,1002,12,85',
    ];
    const first = await deliver(rows.slice(0, 3), { key: 'own', isLong: false, cut: true });
    const [line] = await keptOf(first.reply.receipt);
    await correctLine(ctx, line?.id ?? 0, { raw: 'L-2,2026-03-04T05:06:07Z,1000,12,85' });
    const whole = await deliver(rows, { key: 'own', isLong: false, cut: false });
    expect(whole.reply).toMatchObject({ receipt: first.reply.receipt, stored: 1, refused: 2 });
    const kept = await keptOf(first.reply.receipt);
    expect(kept.map(({ line, state }) => ({ line, state }))).toEqual([
      { line: 2, state: 'let_in' },
      { line: 3, state: 'open' },
    ]);
    expect(kept[0]?.id).toBe(line?.id);
  });

  it('holds no refused line while it waits for a vehicle, so that lines of it can be let in', async () => {
    const rows = [
      'vehicle,at,odometer_km,slip_rpm,duty_pct',
      'L-4,2026-03-04T05:06:07Z,1000,12,850',
      'L-3,2026-03-04T05:06:07Z,1000,12,85',
      'L-4,2026-03-04T05:07:07Z,1001,12,85',
      'L-4,2026-04-04T05:06:07Z,2000,12,85',
      'L-3,2026-04-04T05:06:07Z,2000,12,85',
    ];
    const first = await deliver(rows.slice(0, 4), { key: 'held', isLong: false, cut: true });
    const [line] = await keptOf(first.reply.receipt);
    // The key of L-3 is the lower one, so that L-4 is not locked before it.
    const { again } = await database.client.begin(async (held) => {
      await held`
        select from reading_spans where vehicle = (select key from vehicles where unit = 'L-3') for update`;
      const again = deliver(rows, { key: 'held', isLong: false, cut: false });
      const waiting = () => database.client`
        select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`;
      await expect.poll(waiting, { timeout: 10_000 }).toHaveLength(1);
      await correctLine(ctx, line?.id ?? 0, { raw: 'L-4,2026-03-04T05:06:07Z,1000,12,85' });
      return { again };
    });
    expect((await again).reply).toMatchObject({ stored: 4, refused: 1 });
    expect(await keptOf(first.reply.receipt)).toMatchObject([{ id: line?.id, state: 'let_in' }]);
  });
});
