import { getTableConfig, integer, pgTable } from 'drizzle-orm/pg-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { listOuterTables } from '#db/backup/learn-tables.ts';
import type { RawTransaction } from '#db/connection.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { onEveryNode, onOneNode, SPLIT_COLUMN, splitByVehicle } from './places.ts';
import { schemaKeys, schemaTables } from './schema-tables.ts';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

const placed = [...splitByVehicle, ...onEveryNode, ...Object.keys(onOneNode)];

/** Tables that have no place, and places without a table. */
const compare = (tables: readonly string[]) => ({
  homeless: tables.filter((name) => !placed.includes(name)),
  empty: placed.filter((name) => !tables.includes(name)),
});

it('gives every table of the schema one place, and says why for those that stay on one node', async () => {
  expect(compare([...schemaTables.keys()])).toEqual({ homeless: [], empty: [] });
  expect(compare(await listOuterTables(database.client as unknown as RawTransaction, 'public'))).toEqual({
    homeless: [],
    empty: [],
  });
  expect(new Set(placed).size).toBe(placed.length);
  for (const why of Object.values(onOneNode)) expect(why).toMatch(/^.{10,100}$/);
});

it('would find a table that has no place', () => {
  expect(compare([...schemaTables.keys(), 'newcomers']).homeless).toContain('newcomers');
});

/** What the distribution column has to be in, of a table that is split. */
function findFaults(table: Parameters<typeof getTableConfig>[0]): string[] {
  const { name, columns, primaryKeys, indexes, uniqueConstraints } = getTableConfig(table);
  const [key] = primaryKeys;
  const first = key === undefined ? columns.find((column) => column.primary) : key.columns[0];
  const names = (list: readonly unknown[]) => list.map((column) => (column as { name?: string }).name);
  return [
    ...(first?.name === SPLIT_COLUMN ? [] : [`${name}: the primary key does not begin with it`]),
    ...indexes
      .filter(({ config }) => config.unique && !names(config.columns).includes(SPLIT_COLUMN))
      .map(({ config }) => `${name}: ${config.name} lacks it`),
    ...uniqueConstraints
      .filter((constraint) => !names(constraint.columns).includes(SPLIT_COLUMN))
      .map((constraint) => `${name}: ${constraint.name} lacks it`),
    ...columns
      .filter((column) => column.isUnique && column.name !== SPLIT_COLUMN)
      .map((column) => `${name}: ${column.name} is unique`),
  ];
}

it('keys every table that is split by vehicle first, of one type', () => {
  for (const name of splitByVehicle) {
    const table = schemaTables.get(name)!;
    expect(findFaults(table), name).toEqual([]);
    const column = getTableConfig(table).columns.find((one) => one.name === SPLIT_COLUMN);
    expect(column?.getSQLType(), name).toBe('integer');
  }
});

it('would find a table whose key does not hold the vehicle', () => {
  const odd = pgTable('odd', { id: integer('id').primaryKey(), vehicle: integer('vehicle').unique() });
  expect(findFaults(odd)).toEqual(['odd: the primary key does not begin with it']);
  const worse = pgTable('worse', { vehicle: integer('vehicle').primaryKey(), n: integer('n').unique() });
  expect(findFaults(worse)).toEqual(['worse: n is unique']);
});

it('lets no table refer to one that is split', () => {
  for (const { name, of } of schemaKeys) expect(splitByVehicle as readonly string[], name).not.toContain(of);
});
