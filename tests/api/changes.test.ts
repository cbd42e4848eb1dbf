import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { changes } from '#server/contract/changes.ts';
import { vehicleHistory } from '#server/contract/vehicle.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
let admin: SignedInPerson;
beforeAll(async () => {
  app = await startApp();
  admin = await signInAs(app, 'admin', { name: 'Ilse Admin' });
});
afterAll(() => app?.stop());

const read = async (query = '') => {
  const answer = await fetch(`${app.url}/api/changes${query}`, { headers: admin.headers });
  expect(answer.status).toBe(200);
  return changes.parse(await answer.json());
};
const send = (method: string, path: string, body: unknown, headers = admin.headers) =>
  fetch(app.url + path, { method, headers, body: JSON.stringify(body) });

describe('the list of changes', () => {
  it('says who changed what, when, from where, before and after: only the fields that differ', async () => {
    const since = new Date(Date.now() - 60_000).toISOString();
    await send('POST', '/api/platforms', { id: 'midi', name: 'Midi bus', limit_rpm: 150 });
    const answer = await send('POST', '/api/platforms', { id: 'midi', name: 'Midi bus', limit_rpm: 900 });
    const request = answer.headers.get('x-request-id');
    await send('POST', '/api/platforms', { id: 'midi', name: 'Midi bus', limit_rpm: 900 });
    const { total, rows } = await read(
      `?subject=platform&subject_id=midi&since=${encodeURIComponent(since)}`,
    );
    expect(total).toBe(2);
    expect(rows[0]).toMatchObject({
      actor: { kind: 'person', name: 'Ilse Admin' },
      action: 'changed',
      before: { limit_rpm: 150 },
      after: { limit_rpm: 900 },
      request,
    });
    expect(rows[0]?.from).toMatch(/^(::ffff:)?127\.0\.0\.1$/);
    expect(Object.keys(rows[0]?.before ?? {})).toEqual(['limit_rpm']);
    expect(rows[1]).toMatchObject({
      action: 'created',
      before: null,
      after: { name: 'Midi bus', limit_rpm: 150 },
    });
    expect(Date.parse(rows[0]?.at ?? '')).toBeGreaterThanOrEqual(Date.parse(since) - 1000);
  });

  it.each([
    ['depot', 'POST', '/api/depots', { id: 'east', name: 'East' }, 'created'],
    ['depot', 'POST', '/api/depots', { id: 'east', name: 'East', bays: 4 }, 'changed'],
    ['vehicle', 'POST', '/api/vehicles', { id: 'V-1', depot: 'east' }, 'created'],
    ['vehicle', 'POST', '/api/vehicles', { id: 'V-1', retired: true }, 'changed'],
    ['vehicle', 'POST', '/api/vehicles', { id: 'V-1', retired: false }, 'changed'],
    ['life', 'POST', '/api/lives', { vehicle: 'V-1', fitted_km: 0, source: 'original' }, 'created'],
    [
      'life',
      'POST',
      '/api/lives',
      { vehicle: 'V-1', fitted_km: 0, source: 'original', supplier: 'Own shop' },
      'changed',
    ],
    ['code', 'POST', '/api/codes', { code: 'P1888', meaning: 'lockup valve' }, 'created'],
    ['code', 'POST', '/api/codes', { code: 'P1888', counts: false }, 'changed'],
    ['code', 'DELETE', '/api/codes/P1888', undefined, 'deleted'],
    ['vehicle', 'PUT', '/api/vehicles/V-1/shop', { depot: 'east', note: 'look at it' }, 'sent_to_shop'],
    ['vehicle', 'DELETE', '/api/vehicles/V-1/shop', undefined, 'called_back'],
    ['person', 'POST', '/api/people', { name: 'N', email: 'n@tests.example', role: 'shop' }, 'invited'],
    ['key', 'POST', '/api/keys', { name: 'K', right: 'read' }, 'created'],
  ] as const)('has one more after %s: %s %s %j', async (subject, method, path, body, action) => {
    const before = await read();
    const answer = await send(method, path, body);
    expect(answer.status, await answer.clone().text()).toBeLessThan(300);
    const after = await read();
    expect(after.total).toBe(before.total + 1);
    expect(after.rows[0]).toMatchObject({ subject, action, actor: { name: 'Ilse Admin' } });
  });

  it('has nothing more after what was refused: change and note are one', async () => {
    const before = await read();
    for (const body of [
      [{ id: 'west', name: 'West' }, { id: 'west-2' }],
      [
        { id: 'west', name: 'West' },
        { id: 'other', name: 'Other', time_zone: 'Nowhere/None' },
      ],
    ])
      expect((await send('POST', '/api/depots', body)).status).toBe(400);
    expect((await send('PUT', '/api/vehicles/V-1/shop', { depot: 'nowhere' })).status).toBe(400);
    expect((await read()).total).toBe(before.total);
  });

  it('tells keys and the set-up key apart from people', async () => {
    const made = await (await send('POST', '/api/keys', { name: 'Register', right: 'write' })).json();
    await app.post(
      '/api/depots',
      { id: 'east', name: 'East', bays: 5 },
      { authorization: `Bearer ${made.secret}` },
    );
    await app.post('/api/depots', { id: 'east', name: 'East', bays: 6 });
    const { rows } = await read('?subject=depot&limit=2');
    expect(rows.map(({ actor }) => [actor.kind, actor.id, actor.name])).toEqual([
      ['key', null, 'set-up key'],
      ['key', made.key.id, 'Register'],
    ]);
  });

  it('is filtered by who, what and when, and read page by page without gap', async () => {
    const everything = await read('?limit=1000');
    const { rows: byName } = await read('?actor=ilse&limit=1000');
    expect(byName).toEqual(everything.rows.filter(({ actor }) => actor.name === 'Ilse Admin'));
    const { rows: byAction } = await read('?action=sent_to_shop');
    expect(byAction.map(({ action }) => action)).toEqual(['sent_to_shop']);
    expect((await read(`?until=${encodeURIComponent('2020-01-01T00:00:00Z')}`)).total).toBe(0);
    const paged = [];
    let query = '?limit=3';
    for (;;) {
      const { rows } = await read(query);
      paged.push(...rows);
      const last = rows.at(-1);
      if (last === undefined) break;
      query = `?limit=3&before_id=${last.id}`;
    }
    expect(paged).toEqual(everything.rows);
    for (const bad of ['?subject=dog', '?limit=0', '?since=yesterday', '?before_id=x'])
      expect((await fetch(`${app.url}/api/changes${bad}`, { headers: admin.headers })).status, bad).toBe(400);
  });

  it('keeps its rows: none can be changed or taken out, by the owner of the tables neither', async () => {
    const { total } = await read();
    for (const statement of [
      `update changes set actor_name = 'somebody else'`,
      'delete from changes',
      'delete from changes where id = 1',
      'truncate changes',
      'truncate changes cascade',
    ])
      await expect(app.client.unsafe(statement), statement).rejects.toThrow(
        'changes are kept as they were written',
      );
    expect((await read()).total).toBe(total);
  });

  it('comes as CSV that runs nothing in a spreadsheet', async () => {
    await send('POST', '/api/depots', { id: 'sum', name: '=SUM(A1:A9)' });
    const formula = await signInAs(app, 'admin', { name: '=HYPERLINK("http://x.example")' });
    await send('POST', '/api/depots', { id: 'sum', name: '=SUM(A1:A9)', bays: 2 }, formula.headers);
    const answer = await fetch(`${app.url}/api/changes.csv?subject=depot`, { headers: admin.headers });
    expect(answer.headers.get('content-type')).toBe('text/csv; charset=utf-8');
    expect(answer.headers.get('content-disposition')).toMatch(
      /^attachment; filename="slipdrift-changes-\d{4}-\d\d-\d\d\.csv"$/,
    );
    const [head, ...rows] = parse(await answer.text()) as string[][];
    expect(head).toContain('actor_name');
    expect(rows[0]?.[head?.indexOf('actor_name') ?? 0]).toBe(`'=HYPERLINK("http://x.example")`);
    for (const cell of rows.flat()) expect(cell).not.toMatch(/^[=+@]/);
  });
});

describe('the history of a vehicle', () => {
  it('tells when it was at a shop', async () => {
    await app.post('/api/readings', [makeReading({ vehicle: 'V-1' })]);
    const { events } = vehicleHistory.parse(await (await app.get('/api/vehicles/V-1/history')).json());
    const told = events.filter(({ kind }) => kind === 'sent_to_shop' || kind === 'called_back');
    expect(told.map(({ text }) => text)).toEqual([
      'Called back from the shop of East by Ilse Admin',
      'Sent to the shop of East by Ilse Admin: look at it',
    ]);
  });

  it('has a note of several lines in one, and the shop has it as it was written', async () => {
    const note = 'Shudders when warm.\r\n\nStands at gate 2.\n';
    const sent = await send('PUT', '/api/vehicles/V-1/shop', { depot: 'east', note });
    expect(await sent.json()).toMatchObject({ note: 'Shudders when warm.\n\nStands at gate 2.' });
    const { events } = vehicleHistory.parse(await (await app.get('/api/vehicles/V-1/history')).json());
    expect(events.find(({ kind }) => kind === 'sent_to_shop')?.text).toBe(
      'Sent to the shop of East by Ilse Admin: Shudders when warm. Stands at gate 2.',
    );
    const refused = await send('PUT', '/api/vehicles/V-1/shop', { depot: 'east', note: 'a\u0000b' });
    expect(refused.status).toBe(400);
  });
});
