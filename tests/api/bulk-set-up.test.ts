import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { setUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { setUpFiles } from '#server/contract/set-up-files/set-up-files.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app?.stop());
beforeEach(async () => {
  await app.client`truncate readings, receipts, refused_lines, touched_vehicles, lives, vehicles, platforms, depots cascade`;
});

async function send(what: string, text: string, headers: Record<string, string> = {}) {
  const answer = await app.post(`/api/set-up/${what}`, text, { 'content-type': 'text/csv', ...headers });
  return { status: answer.status, reply: await answer.json() };
}

async function take(what: string, text: string) {
  const { status, reply } = await send(what, text);
  expect([status, reply.errors ?? []]).toEqual([200, []]);
  return setUpFileReply.parse(reply);
}

const fetchText = async (path: string) => (await app.get(`/api/set-up/${path}`)).text();

/** All that a set-up may touch. */
async function everything(): Promise<string> {
  const rows = await app.client`
    select (select json_agg(d order by id) from depots d) as depots,
      (select json_agg(p order by id) from platforms p) as platforms,
      (select json_agg(v order by unit) from vehicles v) as vehicles,
      (select json_agg(l order by vehicle, fitted_km) from lives l) as lives,
      (select json_agg(t) from touched_vehicles t) as touched, (select count(*) from changes) as changes`;
  return JSON.stringify(rows[0]);
}

const lives = async () => [
  ...(await app.client`
    select unit, fitted_km as fitted, removed_km as removed, source, ended, mode, supplier, run_km as run
    from lives l join vehicles v on v.key = l.vehicle order by unit, fitted_km`),
];

const faults = async (what: string, text: string) => {
  const before = await everything();
  const { status, reply } = await send(what, text);
  expect(status).toBe(400);
  expect(await everything()).toBe(before);
  return (reply.errors as { line: number; field: string; message: string }[]).map(
    ({ line, field, message }) => `${line} ${field}: ${message}`,
  );
};

describe('the templates', () => {
  it('go in as they are, in the order of the list, and once more change nothing', async () => {
    for (const { kind } of setUpFiles) {
      const template = await fetchText(`${kind}/template`);
      const dry = await take(`${kind}?dry_run=true`, template);
      expect(dry).toMatchObject({ kind, dry_run: true, lines: 1 });
      expect(dry.created + dry.changed).toBeGreaterThan(0);
      const { dry_run: _, ...done } = await take(kind, template);
      expect(done).toEqual({ ...dry, dry_run: undefined });
      expect(await take(kind, template)).toMatchObject({ created: 0, changed: 0, changes: [] });
    }
    expect(await lives()).toMatchObject([
      { unit: 'EXAMPLE-1', fitted: 0, removed: 187000, ended: 'failed', mode: 'lining worn' },
      { unit: 'EXAMPLE-1', fitted: 187000, removed: null, source: 'rebuilt', run: 0 },
    ]);
  });

  it('say that the example is one', async () => {
    const { warnings } = await take('depots', await fetchText('depots/template'));
    expect(warnings).toMatchObject([
      { message: expect.stringMatching(/example of the template/), lines: [3] },
    ]);
  });
});

describe('a dry run', () => {
  it('stores nothing at all, not even a vehicle, and says column by column what would change', async () => {
    await take('depots', 'id,name,bays\nnorth,North,2\nsouth,South,0\n');
    await app.post('/api/readings', [makeReading({ vehicle: 'B-1' })]);
    await app.post('/api/vehicles', [{ id: 'B-1', depot: 'north' }, { id: 'B-2' }]);
    const before = await everything();
    const file = 'id;depot;VIN;retired\nB-1;south;1M8GDM9A_KP042788;\nB-2;;;no\nB-3;north;;ja\n';
    expect(await faults('vehicles?dry_run=true', file)).toEqual(["4 retired: must be yes or no, not 'ja'"]);
    const dry = await take('vehicles?dry_run=true', file.replace('ja', 'yes'));
    expect(await everything()).toBe(before);
    expect(dry).toMatchObject({ created: 1, changed: 1, unchanged: 1, changes_total: 2 });
    expect(dry.changes).toMatchObject([
      {
        line: 2,
        id: 'B-1',
        action: 'changed',
        fields: [
          { field: 'depot', before: 'north', after: 'south' },
          { field: 'vin', before: null, after: '1M8GDM9A_KP042788' },
        ],
      },
      { line: 4, id: 'B-3', action: 'created' },
    ]);
    const said = dry.warnings.map(({ lines, field, message }) => `${lines} ${field} ${message}`);
    expect(said).toEqual([
      expect.stringMatching(/^2 depot south has no bays/),
      expect.stringMatching(/^2 vin has '_'/),
      expect.stringMatching(/^3,4 id has sent no reading yet/),
    ]);
  });

  it('is one of the calls with JSON too', async () => {
    const before = await everything();
    const answer = await app.post('/api/vehicles?dry_run=true', [{ id: 'B-9' }]);
    expect(await answer.json()).toEqual({ created: 1, changed: 0, unchanged: 0 });
    expect((await app.post('/api/vehicles?dry_run=yes', [{ id: 'B-9' }])).status).toBe(400);
    expect(await everything()).toBe(before);
  });
});

describe('a file', () => {
  it('comes to the same as JSON', async () => {
    const json = {
      depots: { id: 'n', name: 'N', bays: 2, time_zone: 'Europe/Vienna' },
      platforms: {
        id: 'van',
        name: 'Van',
        limit_rpm: 120.5,
        band_edges_pct: [40, 60, 100],
        reference: { fluid_c: 80 },
        gate: { overrun_slip_rpm: -12 },
        solenoid: { ohm: 5.5, supply_v: 24 },
        costs: { inspection: 99 },
      },
      vehicles: { id: 'V-1', depot: 'n', platform: 'van' },
      lives: { vehicle: 'V-1', fitted_km: 1609.344, source: 'used', run_km: 16093.44 },
    };
    for (const [what, body] of Object.entries(json))
      expect((await app.post(`/api/${what}`, body)).status).toBe(200);
    const csv = {
      depots: 'ID;Name;Bays;Time zone\nn;N;2;Europe/Vienna',
      platforms:
        'id;name;limit_rpm;band_edges_pct;reference_fluid_f;gate_overrun_slip_rpm;solenoid_ohm;solenoid_supply_v;cost_inspection\n' +
        'van;Van;120,5;40 60 100;176;-12;5,5;24;99',
      vehicles: 'id\tdepot\tplatform\nV-1\tn\tvan',
      lives: '\ufeffvehicle,source,run_mi,fitted_mi\r\n"V-1",used,10000,1000\r\n',
    };
    const before = await everything();
    for (const [what, text] of Object.entries(csv))
      expect(await take(what, text), what).toMatchObject({
        created: 0,
        changed: 0,
        unchanged: 1,
      });
    expect(await everything()).toBe(before);
  });

  it('leaves what an empty cell is under and takes away what a dash is under', async () => {
    await take('depots', 'id,name\nn,N');
    await take('vehicles', 'id,depot,vin\nV-1,n,ABC\n');
    await take('platforms', 'id,name,solenoid_ohm,solenoid_supply_v,life_km\nvan,Van,5,24,300000');
    const cleared = await take('vehicles', 'id,depot,vin\nV-1,,-\n');
    expect(cleared.changes[0]?.fields).toEqual([{ field: 'vin', before: 'ABC', after: null }]);
    await take('platforms', 'id,name,solenoid_ohm,life_mi\nvan,Van,-,');
    expect(await (await app.get('/api/platforms')).json()).toMatchObject([
      { solenoid: null, life_km: 300000 },
    ]);
    expect(await faults('platforms', 'id,name,solenoid_ohm,solenoid_supply_v\nvan,Van,-,24')).toEqual([
      '2 solenoid_ohm: takes all of solenoid away, but this line also gives a figure of it',
    ]);
    expect(await faults('vehicles', 'id,retired\nV-1,-')).toEqual([
      '2 retired: cannot be taken away: - is for columns that may hold nothing',
    ]);
  });

  it('changes single days of a week', async () => {
    await take('depots', 'id,name,saturday,friday\nn,N,8:00 - 12:00,closed');
    await take('depots', 'id,name,monday\nn,N,-');
    const [depot] = await (await app.get('/api/depots')).json();
    expect(depot.week).toMatchObject({
      monday: null,
      tuesday: { from: '07:00', to: '16:00' },
      friday: null,
      saturday: { from: '08:00', to: '12:00' },
    });
    expect(await faults('depots', 'id,name,monday\nn,N,09:00-08:00\nm,M,all day')).toEqual([
      '2 monday: must end after they begin',
      "3 monday: must be hours such as 07:00-16:00, or closed, not 'all day'",
    ]);
  });

  it.each([
    [
      'vehicles',
      'id,depots,Platfrom\nV-1,n,van',
      ['1 depots: is not a known column; did you mean depot?', '1 Platfrom: is not a known column'],
    ],
    ['vehicles', 'depot,depot\nn,n', ['1 depot: is named twice', '1 id: is missing']],
    ['lives', 'vehicle,source\nV-1,new', ['1 fitted_km: is missing (or fitted_mi)']],
    [
      'lives',
      'vehicle,fitted_km,fitted_mi,source\nV-1,1,1,new\nV-2,,,rebuild',
      [
        '2 fitted_mi: and fitted_km are both given; give one of them',
        "3 source: must be one of original, new, rebuilt, used, not 'rebuild'; did you mean rebuilt?",
        '3 fitted_km: is missing (or fitted_mi)',
      ],
    ],
    [
      'lives',
      'vehicle;fitted_km;source\nV-1;187.000;new',
      [
        "2 fitted_km: '187.000' has marks between thousands: write 187000, or 187.0000 where its mark begins the decimals",
      ],
    ],
    ['lives', 'vehicle,fitted_mi,source\nV-1,4000000,new', ['2 fitted_mi: must be 5000000 or less (km)']],
    [
      'lives',
      'vehicle,fitted_km,source,fitted_at\n\n\nV-1,0,new,04.11.2025\n"V\n2",0,new,2025-02-30',
      [
        "4 fitted_at: must be a day such as 2025-11-04, or an RFC 3339 time, not '04.11.2025'",
        "5 fitted_at: '2025-02-30' is a day that there is not",
      ],
    ],
    ['vehicles', 'id,depot\nV-1,n\nV-2,nowhere\nV-1,n', ['4 : is the same V-1 as line 2; send each once']],
    [
      'vehicles',
      'id,depot\nV-2,nowhere\nV-3,n,4',
      ["2 depot: 'nowhere' is not known; create the depot first", '3 : has 3 cells, but the header names 2'],
    ],
    ['vehicles', 'id,depot\nV-1,"n\nV-2,n', ['3 : is the last, and a quote before it is never closed']],
    [
      'failures',
      'vehicle,odometer_km\nV-1,100',
      ['2 next_source: is missing: new, rebuilt or used, or - where nothing was fitted then'],
    ],
  ])('of %s that is wrong changes nothing and has each fault told by line: %j', async (what, text, told) => {
    await take('depots', 'id,name\nn,N');
    expect((await faults(what, text)).sort()).toEqual([...told].sort());
  });

  it.each([
    ['', 'body_empty', 'text/csv'],
    ['id,name\n', 'body_empty', 'text/csv'],
    ['\u0000\u0001', 'invalid_request', 'text/csv'],
    ['[]', 'unsupported_content_type', 'application/json'],
  ])('that is none, %j, is refused as %s', async (text, code, type) => {
    const { status, reply } = await send('depots', text, { 'content-type': type });
    expect([status >= 400 && status < 500, reply.code]).toEqual([true, code]);
  });

  it('in another encoding is refused in words', async () => {
    const answer = await app.post('/api/set-up/depots', new Blob([Uint8Array.of(0x69, 0x64, 0xe4)]), {
      'content-type': 'text/csv',
    });
    expect([answer.status, (await answer.json()).detail]).toEqual([
      400,
      expect.stringMatching(/not in UTF-8/),
    ]);
  });

  it('over 16 MiB, or of more lines than one call takes, is refused', async () => {
    expect((await send('vehicles', `id\n${'x'.repeat(17 * 1024 * 1024)}`)).status).toBe(413);
    const { status, reply } = await send(
      'vehicles',
      `id\n${Array.from({ length: 20_001 }, (_, i) => `V-${i}`).join('\n')}`,
    );
    expect([status, reply.detail]).toEqual([400, expect.stringMatching(/more than 20,000 lines/)]);
  });

  it('is taken out, edited and brought back', async () => {
    for (const { kind } of setUpFiles) await take(kind, await fetchText(`${kind}/template`));
    await take('vehicles', 'id\n=1+1\nV-3\n"V ""2"", old"');
    await take('lives', 'vehicle,fitted_mi,fitted_at,source\nV-3,100.1,2024-02-29T22:30:00+01:00,used');
    expect((await lives()).at(-1)).toMatchObject({ unit: 'V-3', fitted: 161.095 });
    const before = await everything();
    for (const { kind } of setUpFiles) {
      const text = await fetchText(kind);
      expect(await take(kind, text), kind).toMatchObject({ created: 0, changed: 0 });
    }
    const after = await everything();
    expect(after).toBe(before);
    const edited = (await fetchText('vehicles')).replace('EXAMPLE-1,example-depot', 'EXAMPLE-1,-');
    expect((await take('vehicles', edited)).changes).toMatchObject([
      { id: 'EXAMPLE-1', fields: [{ field: 'depot', before: 'example-depot', after: null }] },
    ]);
  });
});

describe('past failures', () => {
  const BOOK =
    'vehicle,odometer_km,day,mode,next_source,next_supplier,next_run_km\n' +
    'B-1,310000,2024-05-02,lining_worn,new,,\n' +
    'B-2,90000,2023-01-10,,-,,\n' +
    'B-1,150000,2021-03-09,Valve stuck,rebuilt,Example works,0\n';

  it('in any order become lives, and the same file again changes nothing', async () => {
    expect(await take('failures', BOOK)).toMatchObject({ lines: 3, created: 4 });
    const stored = await lives();
    expect(stored).toMatchObject([
      {
        unit: 'B-1',
        fitted: 0,
        removed: 150000,
        source: 'original',
        ended: 'failed',
        mode: 'valve sticking',
      },
      {
        unit: 'B-1',
        fitted: 150000,
        removed: 310000,
        source: 'rebuilt',
        ended: 'failed',
        mode: 'lining worn',
        supplier: 'Example works',
        run: 0,
      },
      { unit: 'B-1', fitted: 310000, removed: null, source: 'new', ended: null },
      { unit: 'B-2', fitted: 0, removed: 90000, ended: 'failed', mode: null },
    ]);
    const before = await everything();
    expect(await take('failures', BOOK)).toMatchObject({ created: 0, changed: 0, unchanged: 4 });
    expect(await everything()).toBe(before);
  });

  it('fill in what is on record and contradict none of it', async () => {
    await app.post('/api/lives', [
      { vehicle: 'B-1', fitted_km: 20000, source: 'used' },
      { vehicle: 'B-1', fitted_km: 150000, source: 'rebuilt', supplier: 'Other works' },
      { vehicle: 'B-2', fitted_km: 0, source: 'original', removed_km: 95000, ended: 'failed' },
    ]);
    expect(await faults('failures', BOOK)).toEqual([
      '3 odometer_km: is 90,000 km, but the life fitted at 0 km ran on to 95,000 km (on record)',
      "4 next_supplier: says 'Example works', but of the life fitted at 150,000 km is on record: 'Other works'. What is on record is corrected with a file of lives",
    ]);
    const fitting = BOOK.replace('Example works', 'other works').replace('90000', '95000');
    expect(await take('failures', fitting)).toMatchObject({ created: 1, changed: 3 });
    expect(await lives()).toMatchObject([
      { fitted: 20000, removed: 150000, source: 'used', ended: 'failed', mode: 'valve sticking' },
      { fitted: 150000, removed: 310000, ended: 'failed', supplier: 'Other works', run: 0 },
      { fitted: 310000, source: 'new' },
      { unit: 'B-2', removed: 95000 },
    ]);
  });
});

describe('who may', () => {
  it('leaves depots and platforms to admins, and vehicles of other depots to their own planners', async () => {
    await take('depots', 'id,name\nnorth,North\nsouth,South');
    await take('vehicles', 'id,depot\nN-1,north\nS-1,south');
    const { headers } = await signInAs(app, 'planner', { depots: ['north'] });
    const ask = async (what: string, text: string) => {
      const answer = await fetch(`${app.url}/api/set-up/${what}`, {
        method: 'POST',
        headers: { ...headers, 'content-type': 'text/csv' },
        body: text,
      });
      return { status: answer.status, errors: (await answer.json()).errors };
    };
    expect((await ask('depots', 'id,name\nnorth,N')).status).toBe(403);
    expect(await ask('vehicles', 'id,vin\nN-1,X\nS-1,X')).toMatchObject({
      status: 403,
      errors: [{ line: 3, field: 'depot' }],
    });
    expect(await ask('failures', 'vehicle,odometer_km,next_source\nS-1,9,new')).toMatchObject({
      status: 403,
      errors: [{ line: 2, field: 'vehicle' }],
    });
    expect((await ask('failures', 'vehicle,odometer_km,next_source\nN-1,9,new')).status).toBe(200);
    const own = await fetch(`${app.url}/api/set-up/vehicles`, { headers });
    expect((await own.text()).split('\r\n').slice(1)).toEqual(['N-1,north,,,no', '']);
  });
});
