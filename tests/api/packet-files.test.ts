import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { packetFile } from '#server/contract/packets.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { visitAs } from '#tests/helpers/packet-visit.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

/** One red pixel; RFC 2083 by hand, CRCs from zlib. */
const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGP4z8AAAAMBAQDJ/pLvAAAAAElFTkSuQmCC',
  'base64',
);

let app: TestApp;
let shop: ReturnType<typeof visitAs>;
let id: number;

beforeAll(async () => {
  app = await startApp();
  await app.post('/api/readings', [makeReading({ vehicle: 'N-1' })]);
  shop = visitAs(app);
  ({ id } = await shop.open('N-1'));
});
afterAll(() => app?.stop());

const send = (path: string, body: Uint8Array | string, headers: Record<string, string>) =>
  fetch(`${app.url}/api/packets/${id}/${path}`, {
    method: 'POST',
    headers: { ...withTestKey, ...headers },
    body: body as BodyInit,
  });
const asPhoto = { 'content-type': 'image/jpeg' };

describe('a photograph', () => {
  it('is kept as what its content says, whatever it was called, and comes back as it was', async () => {
    const answer = await send('photos?name=pan.jpg', png, asPhoto);
    const kept = packetFile.parse(await answer.json());
    expect(kept).toMatchObject({ kind: 'photo', name: 'pan.jpg', type: 'image/png', bytes: png.length });
    const back = await fetch(`${app.url}/api/packets/${id}/files/${kept.id}`, { headers: withTestKey });
    expect(back.headers.get('content-type')).toBe('image/png');
    expect(back.headers.get('x-content-type-options')).toBe('nosniff');
    const bytes = Buffer.from(await back.arrayBuffer());
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(
      createHash('sha256').update(png).digest('hex'),
    );
  });

  it('is kept once where it is sent twice', async () => {
    const ids = await Promise.all(
      [1, 2].map(
        async () => packetFile.parse(await (await send('photos?name=again.png', png, asPhoto)).json()).id,
      ),
    );
    expect(ids[0]).toBe(ids[1]);
    expect((await shop.get(id)).files).toHaveLength(1);
  });

  it.each([
    ['a page that calls itself one', '<html><script>alert(1)</script></html>'],
    [
      'a drawing that can run',
      '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script/></svg>',
    ],
    ['a program', Buffer.from('4d5a90000300000004000000ffff0000', 'hex')],
    ['the beginning of one', png.subarray(0, 12)],
    ['a picture of another kind', Buffer.from('R0lGODlhAQABAAAAACw=', 'base64')],
  ])('is not %s', async (_, body) => {
    const answer = await send('photos?name=pan.jpg', body, asPhoto);
    const said = await answer.json();
    expect([answer.status, said.detail]).toEqual([
      400,
      "'pan.jpg' is no photograph: JPEG, PNG and WebP are taken. It was not stored.",
    ]);
    expect((await shop.get(id)).files).toHaveLength(1);
  });

  it('is not larger than 12 MiB, nor of more pixels than a browser can bear', async () => {
    const large = await send('photos', Buffer.alloc(12 * 1024 * 1024 + 1, 1), asPhoto);
    expect([large.status, (await large.json()).code]).toEqual([413, 'body_too_large']);
    const claims = Buffer.from(png);
    claims.writeUInt32BE(40_000, 16);
    claims.writeUInt32BE(40_000, 20);
    const vast = await send('photos?name=vast.png', claims, asPhoto);
    expect([vast.status, (await vast.json()).detail]).toEqual([
      400,
      "'vast.png' says that it is 40000 by 40000 pixels. Up to 100 million pixels are taken; it was not stored.",
    ]);
  });

  it('is not sent as something else', async () => {
    const answer = await send('photos', png, { 'content-type': 'application/pdf' });
    expect([answer.status, (await answer.json()).code]).toEqual([415, 'unsupported_content_type']);
  });
});

describe('a recorded road test', () => {
  const trace = (rows: number) =>
    `time_s,throttle_pct,speed_kmh,slip_rpm,duty_pct\n${Array.from({ length: rows }, (_, i) => `${i},38,82,${540 + (i % 3)},78`).join('\n')}\n`;

  it('is judged, and kept with the file as it came', async () => {
    const text = trace(60);
    const answer = await send('road-test?name=ride.csv', gzipSync(text), {
      'content-type': 'text/csv',
      'content-encoding': 'gzip',
    });
    const said = await answer.json();
    expect(said).toMatchObject({
      kind: 'stored',
      finding: { result: 'slips', verdict: 'failed', trace: true },
    });
    const drawn = await (await shop.ask('GET', `/packets/${id}/findings/${said.finding.id}/trace`)).json();
    expect(drawn).toMatchObject({ rows: 60, steady: [{ duty_pct: 78 }] });
    const file = (await shop.get(id)).files.find(({ kind }) => kind === 'trace');
    const back = await fetch(`${app.url}/api/packets/${id}/files/${file?.id}`, { headers: withTestKey });
    expect(await back.text()).toBe(text);
  });

  it.each([
    ['the wrong columns', 'speed_kmh,gear\n80,4\n80,4\n', /time/],
    ['one row', trace(1), /row/],
    ['nothing', '', /empty/],
    ['no text', Buffer.from([0, 1, 2, 3, 0, 0, 0, 9, 8, 7]), /text|CSV/],
  ])('is refused with %s, and nothing is stored', async (_, body, says) => {
    const before = (await shop.get(id)).files.length;
    const answer = await send('road-test?name=ride.csv', body, { 'content-type': 'text/csv' });
    expect(answer.status).toBe(400);
    expect((await answer.json()).detail).toMatch(says);
    expect((await shop.get(id)).files).toHaveLength(before);
  });
});
