import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { RawClient } from '#db/client.ts';
import { splitByVehicle } from '#db/distribute/places.ts';
import type { PlanNode } from './find-crossings.ts';

export interface RecordedPlan {
  text: string;
  plan: PlanNode;
}

const SETTINGS = {
  session_preload_libraries: 'auto_explain',
  'auto_explain.log_min_duration': '0',
  'auto_explain.log_format': 'json',
  'auto_explain.log_parameter_max_length': '0',
};

/** Has the server write down the plan of every statement of those who connect from now on. */
export async function startRecording(client: RawClient): Promise<void> {
  const [base] = await client`select current_database() as name`;
  for (const [name, value] of Object.entries(SETTINGS))
    await client.unsafe(`alter database ${base?.name} set ${name} = '${value}'`);
  // Nothing is to count the rows behind our back.
  await client.unsafe('alter system set autovacuum = off');
  await client.unsafe('select pg_reload_conf()');
}

/** Months that were made ahead are empty, and would be read whole because of that. */
const fillMonths = (client: RawClient): Promise<unknown> =>
  client.unsafe(`
    insert into readings (vehicle, at, odometer_km, slip_rpm, duty_pct)
    select (select min(key) from vehicles), to_timestamp(substr(relname, 11), 'YYYY"m"MM') + interval '1 minute', 1, 1, 1
    from pg_class where relnamespace = 'public'::regnamespace and relkind = 'r' and relname ~ '^readings_y'
    on conflict do nothing`);

/**
 * Makes the planner believe that the tables that are split hold much: of ten thousand vehicles, some thousand rows each. Every one of them
 * has to have a row; a month of readings gets one.
 */
export async function pretendMuch(client: RawClient): Promise<void> {
  await fillMonths(client);
  const tables = await client<{ name: string; kind: string }[]>`
    select relname as name, relkind as kind from pg_class
    where relnamespace = 'public'::regnamespace and relkind in ('r', 'p')
      and (relname = any(${[...splitByVehicle]}) or relname = 'vehicles' or relname ~ '^readings_y')`;
  for (const { name, kind } of tables) {
    const isPerVehicle = ['vehicles', 'assessments', 'reading_spans', 'life_weeks'].includes(name);
    const rows = isPerVehicle ? 10_000 : 10_000_000;
    if (name !== 'vehicles')
      await client`select pg_restore_attribute_stats('schemaname', 'public', 'relname', ${name}::text,
        'attname', 'vehicle', 'inherited', ${kind === 'p'}::boolean, 'null_frac', 0::real, 'avg_width', 4, 'n_distinct', 10000::real)`;
    if (kind === 'r') {
      const [row] = await client`select pg_relation_size(${`public.${name}`}::regclass) as bytes`;
      if (Number(row?.bytes) === 0) throw new RangeError(`pretendMuch requires a row in ${name}`);
      await client`select pg_restore_relation_stats('schemaname', 'public', 'relname', ${name}::text,
        'relpages', ${Number(row?.bytes) / 8192}::integer, 'reltuples', ${rows}::real)`;
    }
  }
}

/** Reads what the server has written since the last call. */
export function followPlans(dataFolder: string): () => RecordedPlan[] {
  const path = join(dataFolder, 'postgres.log');
  let from = statSync(path).size;
  return () => {
    const all = readFileSync(path);
    const text = all.subarray(from).toString('utf8');
    from = all.length;
    return parsePlans(text);
  };
}

/** A plan is a line that says so, and the lines after it that begin with a tab. */
export function parsePlans(text: string): RecordedPlan[] {
  return [...text.matchAll(/plan:\n((?:\t.*(?:\n|$))+)/g)].map(([, lines = '']) => {
    const { 'Query Text': query, Plan } = JSON.parse(lines.replaceAll(/^\t/gm, '')) as {
      'Query Text': string;
      Plan: PlanNode;
    };
    return { text: query, plan: Plan };
  });
}
