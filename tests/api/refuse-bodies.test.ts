import { connect } from 'node:net';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { BrokenDelivery } from '#server/contract/receipts.ts';
import { makeReading, minutesLater, toNdjson } from '#tests/helpers/make-reading.ts';
import { type SmallIntake, startSmallIntake } from '#tests/helpers/small-intake.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

const NDJSON = { 'content-type': 'application/x-ndjson' };
const CSV = { 'content-type': 'text/csv' };
const MIB = 1_048_576;

let app: SmallIntake;
beforeAll(async () => {
  app = await startSmallIntake();
});
afterAll(() => app.stop());
beforeEach(() => app.empty());

describe('a body that breaks off', () => {
  const good = Array.from({ length: 30 }, (_, i) => makeReading({ at: minutesLater(i) }));

  async function expectBroken(
    { status, type, reply }: { status: number; type: string | null; reply: BrokenDelivery },
    stored: number,
  ) {
    expect(status).toBe(400);
    expect(type).toBe('application/problem+json');
    expect(reply).toMatchObject({ code: 'body_broken', delivery: { stored } });
    const receipt = reply.delivery?.receipt ?? 'none';
    expect(reply.detail).toContain(receipt);
    const kept = await (await app.get(`/api/receipts/${receipt}`)).json();
    expect(kept).toMatchObject({ complete: false, stored });
    expect(await app.countReadings()).toBe(stored);
  }

  it('as JSON keeps the elements before', async () => {
    const text = JSON.stringify(good);
    await expectBroken(await app.deliver(text.slice(0, -30)), 29);
  });

  it('as gzip keeps the lines before, down to the last whole one', async () => {
    const whole = gzipSync(toNdjson(good));
    const cut = new Blob([whole.subarray(0, whole.length - 12)]);
    const answer = await app.deliver(cut, { ...NDJSON, 'content-encoding': 'gzip' });
    const stored: number = answer.reply.delivery.stored;
    expect(stored).toBeGreaterThanOrEqual(28);
    await expectBroken(answer, stored);
    const again = await app.deliver(new Blob([whole]), { ...NDJSON, 'content-encoding': 'gzip' });
    expect(again.reply).toMatchObject({ stored: 30 - stored, duplicate: stored, conflicting: 0 });
  });

  it('as text where gzip was said stores nothing', async () => {
    const { status, reply } = await app.deliver(toNdjson(good), { ...NDJSON, 'content-encoding': 'gzip' });
    expect(status).toBe(400);
    expect(reply).toMatchObject({
      code: 'body_broken',
      detail: expect.stringContaining('Nothing was stored'),
    });
  });

  it('as gzip where nothing was said is told so', async () => {
    const { status, reply } = await app.deliver(new Blob([gzipSync(toNdjson(good))]), NDJSON);
    expect(status).toBe(400);
    expect(reply.detail).toContain('Content-Encoding: gzip');
  });

  it('with its connection keeps the whole lines before, never half a one', async () => {
    const { port } = new URL(app.url);
    const text = `vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c\n${good.map((r) => `B-1,${r.at},1000,12,70,80`).join('\n')}`;
    await new Promise<void>((resolve) => {
      const socket = connect(Number(port), '127.0.0.1', () => {
        socket.write(
          `POST /api/readings HTTP/1.1\r\nHost: 127.0.0.1\r\nAuthorization: Bearer ${TEST_KEY}\r\nContent-Type: text/csv\r\nContent-Length: ${text.length + 500}\r\n\r\n${text.slice(0, -1)}`,
        );
        setTimeout(() => socket.destroy(), 200);
      });
      socket.on('close', () => resolve());
    });
    await expect.poll(app.countReadings, { timeout: 10_000 }).toBe(29);
    const [receipt] = await app.client`select complete, received, stored, refused, status from receipts`;
    expect(receipt).toEqual({ complete: false, received: 30, stored: 29, refused: 1, status: 400 });
  });

  it('at the limit keeps the lines before it', async () => {
    const lines = Array.from({ length: 20_000 }, (_, i) => makeReading({ vehicle: `V-${i}` }));
    const { status, reply } = await app.deliver(toNdjson(lines), NDJSON);
    expect(status).toBe(413);
    expect(reply).toMatchObject({
      code: 'body_too_large',
      detail: expect.stringContaining('larger than the limit of 2 MiB'),
    });
    expect(reply.delivery.stored).toBeGreaterThan(1000);
    expect(await app.countReadings()).toBe(reply.delivery.stored);
  });

  it('because it unfolds over the limit is told so', async () => {
    const bomb = gzipSync(Buffer.alloc(64 * MIB, ' '));
    const { status, reply } = await app.deliver(new Blob([bomb]), { ...NDJSON, 'content-encoding': 'gzip' });
    expect(status).toBe(413);
    expect(reply.detail).toContain('unfolded larger than the limit of 2 MiB');
  });
});

describe('a body that cannot be read at all', () => {
  it.each([
    ['', {}],
    ['  \n ', {}],
    ['', NDJSON],
    ['\n\n', NDJSON],
    ['', CSV],
  ])('because it is empty (%j)', async (body, headers) => {
    const { status, reply } = await app.deliver(body, headers);
    expect(status).toBe(400);
    expect(reply).toMatchObject({ code: 'body_empty', detail: expect.stringContaining('The body is empty') });
  });

  it.each([
    ['{"vehicle":"B-1"}'],
    ['"text"'],
    ['{"readings": 7}'],
    ['vehicle,at'],
    ['[] []'],
    ['{"a":[{}]}'],
  ])('because it is not an array of readings: %s', async (body) => {
    const { status, reply } = await app.deliver(body);
    expect(status).toBe(400);
    expect(reply).toMatchObject({
      code: 'body_broken',
      detail: expect.stringContaining('{"readings": [...]}'),
    });
  });

  it.each([
    ['text/plain', 'text/plain is not understood'],
    ['application/xml', 'application/xml is not understood'],
    ['text/csv; charset=iso-8859-1', 'has the charset iso-8859-1'],
  ])('because its type is %s', async (type, message) => {
    const { status, reply } = await app.deliver('x', { 'content-type': type });
    expect(status).toBe(415);
    expect(reply.detail).toContain(message);
    expect(reply.detail).toContain('Send application/json, application/x-ndjson, text/csv');
  });

  it('because its encoding is not known', async () => {
    const { status, reply } = await app.deliver('x', { ...CSV, 'content-encoding': 'br' });
    expect(status).toBe(415);
    expect(reply).toMatchObject({ errors: [{ field: 'Content-Encoding', message: 'br is not understood' }] });
  });
});

it('lives on after all that', async () => {
  expect((await app.get('/health/ready')).status).toBe(200);
  expect((await app.deliver([makeReading()])).reply).toMatchObject({ stored: 1 });
});
