import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { openDatabase, type RawClient, rawClient } from '#db/client.ts';
import { attachEmbedded } from '#db/embedded/attach-embedded.ts';
import { signInToDemo } from '#tests/helpers/sign-in-demo.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { startProgram } from './start-program.ts';

/**
 * `npm run measure:fleet-lives`: what `GET /api/analysis/lives` takes on a demo of its own whose vehicles, with lives and
 * stretches, are stored several times over; beside the time the processor time of program and database together. `-- --times 9` says how often, `--folder x` keeps the fleet there for another time.
 */
const { values } = parseArgs({
  options: { times: { type: 'string', default: '9' }, folder: { type: 'string' } },
});
const folder = values.folder ?? makeTemporaryFolder();
const say = (line: string) => process.stdout.write(`${line}\n`);
const CALLS = 7;
const call = '/api/analysis/lives?group_by=fluid_c';

const isNew = !existsSync(join(folder, 'demo'));
const demo = await startProgram(['demo', ...(isNew ? ['--fresh'] : []), '--port', '0'], folder);
try {
  const url = await attachEmbedded(join(folder, 'demo'));
  if (url === null) throw new Error('the demo has no storage of its own');
  const { db, close } = openDatabase(url, { connections: 2 });
  const client = rawClient(db);
  await multiply(client, Number(values.times));
  const [size] =
    await client`select (select count(*) from vehicles) as vehicles, (select count(*) from stretches) as
    stretches, (select count(*) from lives) as lives`;
  say(JSON.stringify(size));
  const { ask } = await signInToDemo(demo.url, 'analyst');
  const postmaster = Number(
    readFileSync(join(folder, 'demo', 'postgres', 'postmaster.pid'), 'utf8').split('\n')[0],
  );
  const processors: number[] = [];
  const time = async (path = call) => {
    const startedMs = performance.now();
    const startedS = processorSeconds([process.pid, postmaster]);
    const answer = await ask(path);
    const text = await answer.text();
    if (answer.status !== 200) throw new Error(text.slice(0, 500));
    processors.push(processorSeconds([process.pid, postmaster]) - startedS);
    return (performance.now() - startedMs) / 1000;
  };
  const tell = (what: string, seconds: number[]) => {
    const used = processors.splice(0).toSorted((a, b) => a - b);
    const inOrder = seconds.toSorted((a, b) => a - b);
    const [least, middle, most] = [0, inOrder.length >> 1, inOrder.length - 1].map((i) =>
      inOrder[i]?.toFixed(2),
    );
    say(
      `${what}: ${least} to ${most} s, median ${middle}; processor ${used[used.length >> 1]?.toFixed(2)} s`,
    );
  };
  const repeat = async (path?: string) => {
    const seconds: number[] = [];
    for (let i = 0; i < CALLS; i++) seconds.push(await time(path));
    return seconds;
  };
  await client`update life_weeks set weeks = null`;
  tell('nothing made yet', [await time()]);
  tell('as it stands after an assessment', await repeat());
  await client`update life_weeks set weeks = null where vehicle % 10 = 0`;
  tell('a tenth of the vehicles to be made', [await time()]);
  tell('without a group', await repeat('/api/analysis/lives'));
  const { choices } = await (await ask(call)).json();
  const middle = new Date((Date.parse(choices.first_day) + Date.parse(choices.last_day)) / 2);
  processors.splice(0);
  tell('within a period', await repeat(`${call}&to=${middle.toISOString().slice(0, 10)}`));
  tell('as CSV', await repeat('/api/analysis/lives.csv'));
  await close();
  say(`peak memory ${demo.peakMiB().toFixed(0)} MiB`);
} finally {
  await demo.stop();
  if (values.folder === undefined) rmSync(folder, { recursive: true, force: true });
}

/** Of these processes and all that they began and that still run; Linux, in ticks of 10 ms. */
function processorSeconds(roots: readonly number[]): number {
  const all = readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => {
      const path = `/proc/${name}/stat`;
      const fields = existsSync(path)
        ? readFileSync(path, 'utf8')
            .replace(/^.*\) /, '')
            .split(' ')
        : [];
      const [parent, user, system] = [fields[1], fields[11], fields[12]].map(Number);
      return [{ pid: Number(name), parent, ticks: (user ?? 0) + (system ?? 0) }];
    });
  const found = new Set(roots);
  for (let before = 0; before !== found.size; ) {
    before = found.size;
    for (const { pid, parent } of all) if (parent !== undefined && found.has(parent)) found.add(pid);
  }
  return all.filter(({ pid }) => found.has(pid)).reduce((sum, { ticks }) => sum + ticks / 100, 0);
}

/** The fleet so many times over, each vehicle under a name and key of its own. Nothing where that is done. */
async function multiply(client: RawClient, times: number): Promise<void> {
  const [most] = await client`select max(key) as key, bool_or(unit like '% copy %') as done from vehicles`;
  if (most?.done) return;
  const tables: [name: string, key: string][] = [
    ['vehicles', 'key'],
    ['lives', 'vehicle'],
    ['stretches', 'vehicle'],
    ['stretch_totals', 'vehicle'],
  ];
  for (const [table, key] of tables) {
    const columns = await client<
      { name: string }[]
    >`select column_name as name from information_schema.columns
      where table_schema = 'public' and table_name = ${table} order by ordinal_position`;
    const own = columns.map(({ name }) =>
      name === key
        ? `${name} + copy * ${most?.key}`
        : name === 'unit'
          ? "unit || ' copy ' || copy"
          : `"${name}"`,
    );
    await client.unsafe(`insert into ${table} (${columns.map(({ name }) => `"${name}"`).join(', ')})
      select ${own.join(', ')} from ${table}, generate_series(1, ${times - 1}) as copy where ${key} <= ${most?.key}`);
  }
  await client`vacuum analyze`;
}
