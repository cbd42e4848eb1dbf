import { getTableName, is } from 'drizzle-orm';
import { getTableConfig, PgTable } from 'drizzle-orm/pg-core';
import * as access from '#db/schema/access.ts';
import * as analysis from '#db/schema/analysis.ts';
import * as fleet from '#db/schema/fleet.ts';
import * as intake from '#db/schema/intake.ts';
import * as lifeData from '#db/schema/life-data.ts';
import * as notices from '#db/schema/notices.ts';
import * as packets from '#db/schema/packets.ts';
import * as planning from '#db/schema/planning.ts';
import * as upkeep from '#db/schema/upkeep.ts';

const modules = [access, analysis, fleet, intake, lifeData, notices, packets, planning, upkeep];

/** Every table of the schema, by name. */
export const schemaTables: ReadonlyMap<string, PgTable> = new Map(
  modules
    .flatMap((module) => Object.values<unknown>(module))
    .filter((value): value is PgTable => is(value, PgTable))
    .map((table) => [getTableName(table), table]),
);

/** A foreign key as the schema has it. */
export interface SchemaKey {
  name: string;
  table: string;
  columns: string[];
  of: string;
  ofColumns: string[];
  onDelete: string;
}

/** What the schema says of foreign keys: those that an interrupted run has left away are known from here. */
export const schemaKeys: readonly SchemaKey[] = [...schemaTables.values()].flatMap((table) =>
  getTableConfig(table).foreignKeys.map((key) => {
    const { columns, foreignTable, foreignColumns } = key.reference();
    return {
      name: key.getName(),
      table: getTableName(table),
      columns: columns.map((column) => column.name),
      of: getTableName(foreignTable),
      ofColumns: foreignColumns.map((column) => column.name),
      onDelete: key.onDelete ?? 'no action',
    };
  }),
);
