import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newPacketLink, type PacketLink, packetLink } from '#server/contract/packets.ts';
import { book, bookingNow, setUpBookableFleet } from '#tests/helpers/bookable-fleet.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { visitAs } from '#tests/helpers/packet-visit.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
let planner: ReturnType<typeof visitAs>;
let id: number;

beforeAll(async () => {
  app = await startApp({}, bookingNow);
  await setUpBookableFleet(app, 4);
  const at = '2026-11-25T08:00:00Z';
  await app.post(
    '/api/readings',
    ['N-1', 'N-2', 'S-1'].map((vehicle) => makeReading({ vehicle, at })),
  );
  planner = visitAs(app, (await signInAs(app, 'planner', { name: 'Tarn Ewell' })).headers);
  ({ id } = await planner.open('N-1'));
});
afterAll(() => app?.stop());

async function share(mayReport = false, days = 14) {
  const answer = await planner.ask('POST', `/packets/${id}/links`, {
    label: 'Brae Transmissions',
    days,
    may_report: mayReport,
  });
  expect(answer.status).toBe(200);
  const { link, address } = newPacketLink.parse(await answer.json());
  const secret = new URL(address).hash.slice(1);
  return { link, secret, holder: visitAs(app, { authorization: `Bearer ${secret}` }) };
}

const findLink = async (link: number): Promise<PacketLink> => {
  const links = packetLink.array().parse(await (await planner.ask('GET', `/packets/${id}/links`)).json());
  const found = links.find((one) => one.id === link);
  if (found === undefined) throw new Error('no such link');
  return found;
};

describe('the link of a packet', () => {
  it('opens that packet without an account, and nothing else', async () => {
    const other = await planner.open('N-2');
    const { holder } = await share();
    expect(await holder.get(id)).toMatchObject({ vehicle: 'N-1', may_report: false, may_share: false });
    expect(await (await holder.ask('GET', '/packet-by-link')).json()).toMatchObject({ id });
    expect((await holder.ask('GET', `/packets/${id}/series`)).status).toBe(200);
    expect((await holder.ask('GET', `/packets/${other.id}`)).status).toBe(404);
    for (const path of ['/vehicles/N-1', '/ranking', '/depots', `/packets/${id}/links`, '/people'])
      expect((await holder.ask('GET', path)).status, path).toBe(403);
    const { packets } = await (await holder.ask('GET', '/packets')).json();
    expect(packets.map((one: { id: number }) => one.id)).toEqual([id]);
  });

  it('reports only where it may, under its own name', async () => {
    const reading = await share(false);
    const pan = { step: 'pan', debris: 'fine' };
    const refused = await reading.holder.refused('POST', `/packets/${id}/findings`, pan);
    expect(refused.status).toBe(403);
    expect(refused.detail).toContain('lets you read the packet and not report');
    const reporting = await share(true);
    expect(await reporting.holder.record(id, pan)).toMatchObject({
      finding: { by: 'link for Brae Transmissions' },
    });
    const changes = await (await app.get('/api/changes?subject=packet')).json();
    expect(JSON.stringify(changes)).toContain('link for Brae Transmissions');
  });

  it('has every opening written down: when, from where, with what', async () => {
    const { link, holder } = await share(true);
    await holder.ask('GET', '/packet-by-link');
    await holder.ask('GET', `/packets/${id}/series`);
    await holder.record(id, { step: 'pan', debris: 'none' });
    const { openings } = await findLink(link.id);
    expect(openings.map(({ what }) => what)).toEqual(['finding', 'opened']);
    expect(openings[0]).toMatchObject({ from: expect.stringContaining('127.0.0.1'), browser: 'node' });
  });

  it('ends by itself, or when it is revoked, and vain tries are written down too', async () => {
    const revoked = await share();
    await revoked.holder.get(id);
    expect((await planner.ask('DELETE', `/packets/${id}/links/${revoked.link.id}`)).status).toBe(204);
    const said = await revoked.holder.refused('GET', '/packet-by-link');
    expect([said.status, said.detail]).toEqual([
      401,
      'This link was revoked on 26 Nov 2026. Ask whoever sent it for a new one.',
    ]);
    expect(await findLink(revoked.link.id)).toMatchObject({
      state: 'revoked',
      revoked_by: 'Tarn Ewell',
      openings: [{ what: 'refused: it was revoked' }],
    });
    const expired = await share();
    await app.client`update packet_links set expires_at = '2026-11-20' where id = ${expired.link.id}`;
    const late = await expired.holder.refused('GET', `/packets/${id}`);
    expect([late.status, late.detail]).toEqual([
      401,
      'This link ran out on 20 Nov 2026. Ask whoever sent it for a new one.',
    ]);
    expect((await findLink(expired.link.id)).state).toBe('expired');
  });

  it('opens nothing once a letter of it is another, or it is cut short', async () => {
    const { secret } = await share();
    const last = secret.at(-1) === 'A' ? 'B' : 'A';
    // The last letter of 43 carries four bits that count: another one of the same bits would be the same secret in base64.
    for (const [altered, status] of [
      [`${secret.slice(0, 10)}${secret[10] === 'x' ? 'y' : 'x'}${secret.slice(11)}`, 401],
      [secret.slice(0, -1), 401],
      [`${secret.slice(0, -1)}${last}`, 401],
      [`${secret} `, 200],
    ] as const) {
      const answer = await fetch(`${app.url}/api/packet-by-link`, {
        headers: { authorization: `Bearer ${altered}` },
      });
      expect(answer.status, altered.replace(secret.slice(0, 30), '…')).toBe(status);
      await answer.body?.cancel();
    }
  });

  it('is kept as a digest alone, and stands in no answer', async () => {
    const { secret } = await share();
    const [row] = await app.client`select digest, label from packet_links order by id desc limit 1`;
    expect(Buffer.from(row?.digest).length).toBe(32);
    expect(JSON.stringify(await (await planner.ask('GET', `/packets/${id}/links`)).json())).not.toContain(
      secret,
    );
    expect(JSON.stringify(await (await app.get('/api/changes')).json())).not.toContain(secret.slice(10));
  });

  it('learns of sister vehicles what was found, and not on which', async () => {
    const sister = await planner.open('S-1');
    await planner.close(sister.id, { outcome: 'no_fault_found', odometer_km: 200_000, as_measured: true });
    const [forPlanner] = (await planner.get(id)).sisters;
    expect(forPlanner).toMatchObject({ vehicle: 'S-1', packet: sister.id });
    const { holder } = await share();
    const [forHolder] = (await holder.get(id)).sisters;
    expect(forHolder).toMatchObject({ vehicle: null, packet: null, outcome: 'no_fault_found' });
  });
});

describe('a shop', () => {
  it('sees a vehicle that is booked into its bays, and not those of others', async () => {
    const shop = visitAs(app, (await signInAs(app, 'shop', { depots: ['south'] })).headers);
    expect((await shop.ask('GET', '/vehicles/S-2')).status).toBe(404);
    const booking = await book(app, { vehicle: 'S-2', day: '2026-11-30' });
    expect((await shop.ask('GET', '/vehicles/S-2')).status).toBe(200);
    expect((await shop.ask('GET', '/vehicles/S-3')).status).toBe(404);
    const opened = await shop.open('S-2');
    expect(opened).toMatchObject({ depot: 'south', booking: { id: booking.id } });
    const elsewhere = visitAs(app, (await signInAs(app, 'shop', { depots: ['north'] })).headers);
    expect((await elsewhere.ask('GET', `/packets/${opened.id}`)).status).toBe(404);
  });

  it('has the booking closed with the job: done where its time has come, cancelled where it lies ahead', async () => {
    const stateOf = async (booking: number) => {
      const [row] = await app.client`select state, reason from bookings where id = ${booking}`;
      return row;
    };
    const ahead = await book(app, { vehicle: 'N-3', day: '2026-11-30' });
    const first = await planner.open('N-3');
    await planner.close(first.id, { outcome: 'no_fault_found', odometer_km: 1000 });
    expect(await stateOf(ahead.id)).toMatchObject({
      state: 'cancelled',
      reason: expect.stringContaining('before its day'),
    });
    const begun = await book(app, { vehicle: 'N-4', day: '2026-11-27' });
    await app.client`update bookings set starts_at = starts_at - interval '2 days', ends_at = ends_at - interval '2 days', day = day - 2 where id = ${begun.id}`;
    const second = await planner.open('N-4');
    await planner.close(second.id, { outcome: 'no_fault_found', odometer_km: 1000 });
    expect(await stateOf(begun.id)).toMatchObject({ state: 'done' });
  });
});
