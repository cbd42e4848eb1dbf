import { execFileSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { existsSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { openDatabase, type RawClient } from '#db/client.ts';
import { noteMigrations, readMigrations, runMigrations } from '#db/migrations-known.ts';
import { writeRoadTest } from '#demo-fleet/write-road-test.ts';
import { visitAs } from '#tests/helpers/packet-visit.ts';
import { runSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { plainEnd, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { withDatabase } from '#tests/helpers/with-database.ts';

let folder: string;
let app: TestApp;
let url: string;
const made: string[] = [];
const admin = openDatabase(withDatabase(inject('templateUrl'), 'postgres'), { connections: 1 });

beforeAll(async () => {
  folder = makeTemporaryFolder();
  app = await startApp({}, plainEnd);
  await sendPlainFleet(app);
  const [row] = await app.client`select current_database() as name`;
  url = withDatabase(inject('templateUrl'), String(row?.name));
});
afterAll(async () => {
  await app.stop();
  for (const name of made) await admin.client.unsafe(`drop database if exists ${name} with (force)`);
  await admin.close();
  rmSync(folder, { recursive: true });
});

async function createEmpty(): Promise<string> {
  const name = `slipdrift_test_${randomUUID().replaceAll('-', '')}`;
  await admin.client.unsafe(`create database ${name}`);
  made.push(name);
  return withDatabase(inject('templateUrl'), name);
}

const fileFor = (name: string) => join(folder, `${name}.tar.gz`);

/** Runs a command on a database, or on a data folder, and answers how it ended and what it said. */
async function run(args: string[], settings: Record<string, string>) {
  const program = runSlipdrift(args, settings);
  const code = await program.ended;
  return { code, said: program.output() };
}

async function backUp(name: string, from = url): Promise<string> {
  const file = fileFor(name);
  const { code, said } = await run(['backup', file], { DATABASE_URL: from });
  expect(code, said).toBe(0);
  return file;
}

async function withClient<T>(at: string, work: (client: RawClient) => Promise<T>): Promise<T> {
  const { client, close } = openDatabase(at, { connections: 2 });
  try {
    return await work(client);
  } finally {
    await close();
  }
}

/** Rows and digest of every table, asked of the database itself and not of what a backup says. */
async function fingerprint(client: RawClient): Promise<Record<string, string>> {
  const tables = await client<{ name: string }[]>`
    select relname as name from pg_class
    where relnamespace = 'public'::regnamespace and relkind in ('r', 'p') order by 1`;
  const found: Record<string, string> = {};
  for (const { name } of tables) {
    const [row] = await client.unsafe(
      `select count(*) as n, md5(coalesce(string_agg(t::text, e'\\n' order by t::text), '')) as digest from "${name}" t`,
    );
    found[name] = `${row?.n} ${row?.digest}`;
  }
  return found;
}

/** All that the migrations made, so that a schema which a restore has built can be held to one that they built. */
async function describeSchema(client: RawClient): Promise<unknown> {
  const ask = (text: string) => client.unsafe(text).then((rows) => rows.map((row) => JSON.stringify(row)));
  return {
    columns: await ask(`select table_name, column_name, ordinal_position, data_type, udt_name, is_nullable,
      column_default, is_identity from information_schema.columns where table_schema = 'public' order by 1, 3`),
    constraints: await ask(`select conrelid::regclass::text as t, conname, contype, convalidated,
      pg_get_constraintdef(oid) as d from pg_constraint where connamespace = 'public'::regnamespace order by 1, 2`),
    indexes: await ask(
      `select tablename, indexname, indexdef from pg_indexes where schemaname = 'public' order by 1, 2`,
    ),
    triggers: await ask(`select tgrelid::regclass::text as t, tgname, tgenabled, pg_get_triggerdef(oid) as d
      from pg_trigger where not tgisinternal order by 1, 2`),
    functions: await ask(
      `select proname, prosrc from pg_proc where pronamespace = 'public'::regnamespace order by 1`,
    ),
    sequences: await ask(`select c.relname, d.refobjid::regclass as t, d.refobjsubid from pg_class c
      join pg_depend d on d.objid = c.oid and d.deptype = 'a'
      where c.relkind = 'S' and c.relnamespace = 'public'::regnamespace order by 1`),
    partitions: await ask(`select relname, pg_get_expr(relpartbound, oid) as b from pg_class
      where relnamespace = 'public'::regnamespace and relispartition and relkind = 'r' order by 1`),
    migrations: await ask('select hash, created_at from drizzle.__drizzle_migrations order by created_at'),
    schemas: await ask(`select nspname from pg_namespace where nspname !~ '^pg_' order by 1`),
  };
}

const ranking = async (of: TestApp) => {
  const answer = await of.get('/api/ranking');
  expect(answer.status).toBe(200);
  return answer.json();
};

describe('a backup', () => {
  it('brings every row, the schema, the sequences and the whole ranking to an empty database', async () => {
    const file = await backUp('whole');
    const other = await createEmpty();
    const restored = await run(['restore', file], { DATABASE_URL: other });
    expect(restored.code, restored.said).toBe(0);
    await withClient(other, async (client) => {
      const last = await client`select actor_kind, action, subject from changes order by id desc limit 1`;
      expect(last).toEqual([{ actor_kind: 'program', action: 'restored', subject: 'storage' }]);
      const { changes, ...rows } = await fingerprint(client);
      const { changes: before, ...expected } = await fingerprint(app.client);
      expect(rows).toEqual(expected);
      expect(Number.parseInt(changes ?? '', 10)).toBe(Number.parseInt(before ?? '', 10) + 1);
      expect(await describeSchema(client)).toEqual(await describeSchema(app.client));
      const next = 'select last_value from vehicles_key_seq';
      expect(await client.unsafe(next)).toEqual(await app.client.unsafe(next));
    });
    const again = await startApp({ databaseUrl: other }, plainEnd);
    try {
      expect(await ranking(again)).toEqual(await ranking(app));
    } finally {
      await again.stop();
    }
  });

  it('carries packets with their findings, files and links, byte for byte', async () => {
    const shop = visitAs(app);
    const { id } = await shop.open('P-01');
    const trace = Buffer.from(writeRoadTest({ seed: 'P-01', slipRpm: 240 }));
    // Every byte there is behind the head of a picture: 16 by 16 pixels, and nothing that could be drawn.
    const photo = Buffer.concat([
      Buffer.from('/9j/4AAQSkZJRgABAQAAAQABAAD/wAARCAAQABADASIAAhEBAxEB', 'base64'),
      Buffer.from(Array.from({ length: 1024 }, (_, i) => i % 256)),
    ]);
    const post = async (of: string, body: Buffer, type: string) => {
      const answer = await app.post(`/api/packets/${id}/${of}`, new Blob([new Uint8Array(body)]), {
        'content-type': type,
      });
      expect(answer.status, await answer.clone().text()).toBe(200);
    };
    await post('photos?name=pan.jpg', photo, 'image/jpeg');
    await post('road-test?name=hill.csv', trace, 'text/csv');
    await shop.record(id, { step: 'pan', debris: 'lining', notes: 'Flakes' });
    await shop.report(id, { parts: [{ kind: 'converter', source: 'rebuilt', price: 900 }] });
    const made = await shop.ask('POST', `/packets/${id}/links`, { label: 'Brae Transmissions' });
    const secret = new URL((await made.json()).address).hash.slice(1);

    const file = await backUp('packets');
    const other = await createEmpty();
    const restored = await run(['restore', file], { DATABASE_URL: other });
    expect(restored.code, restored.said).toBe(0);
    await withClient(other, async (client) => {
      const [now, before] = [await fingerprint(client), await fingerprint(app.client)];
      for (const table of [
        'packets',
        'packet_evidence',
        'findings',
        'packet_files',
        'packet_links',
        'packet_openings',
      ])
        expect([table, now[table]]).toEqual([table, before[table]]);
    });
    const again = await startApp({ databaseUrl: other }, plainEnd);
    try {
      const { files, ...packet } = await visitAs(again).get(id);
      expect(packet).toMatchObject({ vehicle: 'P-01', state: 'open', report: { parts: [{ price: 900 }] } });
      const { now: _, ...rest } = packet;
      const { now: __, files: ___, ...asBefore } = await shop.get(id);
      expect(rest).toEqual(asBefore);
      const bytes = await Promise.all(
        files.map(async ({ kind, id: of }) => {
          const answer = await again.get(`/api/packets/${id}/files/${of}`);
          return [kind, Buffer.from(await answer.arrayBuffer()).toString('base64')];
        }),
      );
      expect(Object.fromEntries(bytes)).toEqual({
        photo: photo.toString('base64'),
        trace: trace.toString('base64'),
      });
      const recorded = packet.steps.find(({ step }) => step === 'road_test')?.finding;
      const drawn = await again.get(`/api/packets/${id}/findings/${recorded?.id}/trace`);
      expect((await drawn.json()).rows).toBe(2400);
      // Whoever was sent the link opens the packet there too.
      const holder = visitAs(again, { authorization: `Bearer ${secret}` });
      expect((await holder.get(id)).vehicle).toBe('P-01');
    } finally {
      await again.stop();
    }
  });

  it('is a tar that other programs read, for its owner alone', async () => {
    const file = await backUp('plain');
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(existsSync(`${file}.part`)).toBe(false);
    const names = execFileSync('tar', ['-tzf', file], { encoding: 'utf8' }).trim().split('\n');
    expect(names[0]).toBe('about.json');
    expect(names.at(-1)).toBe('manifest.json');
    const depots = execFileSync('tar', ['-xzOf', file, 'tables/depots/000001.copy'], { encoding: 'utf8' });
    expect(depots.split('\n').map((line) => line.split('\t')[1])).toContain('North yard');
  });

  it('is not written over a file that exists, but with --force', async () => {
    const file = fileFor('there');
    writeFileSync(file, 'precious');
    const refused = await run(['backup', file], { DATABASE_URL: url });
    expect(refused.code).toBe(1);
    expect(refused.said).toContain('exists. Nothing was changed');
    expect(readFileSync(file, 'utf8')).toBe('precious');
    expect((await run(['backup', '--force', file], { DATABASE_URL: url })).code).toBe(0);
    expect((await run(['restore', '--check', file], { DATABASE_URL: url })).said).toContain('is whole');
  });
});

/** A database as an older Slipdrift left it: two vehicles, a reading, and a code that was switched off. */
async function makeOlder(): Promise<string> {
  const at = await createEmpty();
  const steps = readMigrations().slice(0, 2);
  await withClient(at, async (client) => {
    await client.begin(async (transaction) => {
      await runMigrations(transaction, steps);
      await noteMigrations(transaction, steps);
    });
    await client.unsafe(`
      insert into depots (id, name, bays, time_zone) values ('west', E'West\\tyard\\n\\\\.', 1, 'UTC');
      insert into vehicles (unit, depot) values ('B-1', 'west'), ('B-2', null);
      update trouble_codes set counts = false where code = 'P0741';
      create table readings_y2024m02 partition of readings for values from ('2024-02-01 00:00:00+00') to ('2024-03-01 00:00:00+00');
      insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct, fluid_c)
        values ('2024-02-29T12:00:00Z', 1, 187412.03, 0.1, 85, 84)`);
  });
  return at;
}

describe('a backup of an older Slipdrift', () => {
  it('is taken without changing the database, and brought up to date where it is restored', async () => {
    const older = await makeOlder();
    const file = await backUp('older', older);
    expect(
      await withClient(older, (client) => client`select count(*) as n from drizzle.__drizzle_migrations`),
    ).toEqual([{ n: 2 }]);
    const target = await createEmpty();
    const { code, said } = await run(['restore', file], { DATABASE_URL: target });
    expect(code, said).toBe(0);
    expect(said).toContain('Brought up to date with 0002_fluid-optional');
    await withClient(target, async (client) => {
      const [fresh] = await Promise.all([describeSchema(app.client)]);
      const { partitions: _, ...schema } = (await describeSchema(client)) as Record<string, unknown>;
      const { partitions: __, ...expected } = fresh as Record<string, unknown>;
      expect(withoutMonths(schema)).toEqual(withoutMonths(expected));
      expect(await client`select name from depots`).toEqual([{ name: 'West\tyard\n\\.' }]);
      expect(await client`select counts from trouble_codes where code = 'P0741'`).toEqual([
        { counts: false },
      ]);
      expect(await client`select odometer_km, slip_rpm from readings_y2024m02`).toEqual([
        { odometer_km: 187412.03, slip_rpm: 0.1 },
      ]);
      await client`insert into vehicles (unit) values ('B-3')`;
      expect(await client`select key from vehicles where unit = 'B-3'`).toEqual([{ key: 3 }]);
    });
  });
});

/** Two databases with readings of other months have other partitions, and are the same otherwise. */
const withoutMonths = (schema: Record<string, unknown>) =>
  Object.fromEntries(
    Object.entries(schema).map(([kind, rows]) => [
      kind,
      (rows as string[]).filter((row) => !row.includes('readings_y')),
    ]),
  );

describe('a restore declines, and leaves the database as it was,', () => {
  let whole: Buffer;
  let before: Record<string, string>;
  beforeAll(async () => {
    whole = readFileSync(await backUp('to-be-broken'));
    before = await fingerprint(app.client);
  });

  const changeText = (file: Buffer, from: string, to: string): Buffer => {
    const text = gunzipSync(file).toString('latin1');
    expect(text).toContain(from);
    return gzipSync(Buffer.from(text.replace(from, to), 'latin1'));
  };

  it.each<[string, () => Buffer | string, RegExp]>([
    [
      'a file that was cut off',
      () => whole.subarray(0, Math.floor(whole.length * 0.7)),
      /is damaged: it ends before its end/,
    ],
    ['a file without its last byte', () => whole.subarray(0, -1), /is damaged: it ends before its end/],
    [
      'a file with a changed byte',
      () => {
        const changed = Buffer.from(whole);
        changed[Math.floor(whole.length / 2)] = (changed[Math.floor(whole.length / 2)] ?? 0) ^ 1;
        return changed;
      },
      /is damaged/,
    ],
    [
      'a row that is not the one that was written',
      () => changeText(whole, 'North yard', 'South yard'),
      /is damaged: the rows of \w+ are not those/,
    ],
    ['a cut archive packed anew', () => gzipSync(gunzipSync(whole).subarray(0, 400 * 512)), /is damaged/],
    ['text', () => 'vehicle,at\n', /is not a backup of Slipdrift/],
    ['nothing', () => '', /is not a backup of Slipdrift/],
    [
      'another packed file',
      () => gzipSync('vehicle,at\n'.repeat(1000)),
      /is not a backup of Slipdrift|is damaged/,
    ],
    [
      'another archive',
      () => {
        const path = fileFor('foreign');
        execFileSync('tar', ['-czf', path, '-C', '/etc', 'hostname']);
        return readFileSync(path);
      },
      /is not a backup of Slipdrift/,
    ],
    [
      'a later format',
      () => changeText(whole, '"version": 1', '"version": 9'),
      /in a format of Slipdrift .*which this version cannot read/,
    ],
  ])('%s', async (_, make, words) => {
    const file = fileFor(`bad-${randomUUID()}`);
    writeFileSync(file, make());
    const { code, said } = await run(['restore', '--replace', file], { DATABASE_URL: url });
    expect(code, said).toBe(1);
    expect(said).toMatch(words);
    expect(said).toContain('Nothing was changed');
    expect(said.trim().split('\n')).toHaveLength(1);
    expect(await fingerprint(app.client)).toEqual(before);
  });

  it('a backup of a newer Slipdrift', async () => {
    const newer = await makeOlder();
    await withClient(
      newer,
      (client) =>
        client`insert into drizzle.__drizzle_migrations (hash, created_at) values ('x', 99999999999999)`,
    );
    const { code, said } = await run(['restore', '--replace', await backUp('newer', newer)], {
      DATABASE_URL: url,
    });
    expect(code).toBe(1);
    expect(said).toContain('was made by a newer Slipdrift');
    expect(await fingerprint(app.client)).toEqual(before);
  });

  it('where data are there, unless told to replace them', async () => {
    const { code, said } = await run(['restore', fileFor('to-be-broken')], { DATABASE_URL: url });
    expect(code).toBe(1);
    expect(said).toMatch(/The database holds data \(rows in .*--replace/);
    expect(await fingerprint(app.client)).toEqual(before);
  });

  it('rows that break a foreign key, when all of them have been read in', async () => {
    const broken = await makeOlder();
    await withClient(broken, (client) =>
      client.unsafe(`
      alter table vehicles drop constraint vehicles_depot_depots_id_fk; delete from depots`),
    );
    const { code } = await run(['restore', '--replace', await backUp('orphans', broken)], {
      DATABASE_URL: url,
    });
    expect(code).toBe(1);
    expect(await fingerprint(app.client)).toEqual(before);
    expect(await app.client`select count(*) as n from pg_namespace where nspname like 'slipdrift%'`).toEqual([
      { n: 0 },
    ]);
  });
});
