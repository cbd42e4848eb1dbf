import { z } from 'zod';

export const FORMAT = 'slipdrift-backup';
/** Raised when an older program could not read what is written. */
export const FORMAT_VERSION = 1;

/** First entry of a backup: enough to decline it before the rest is read. */
export const ABOUT_PATH = 'about.json';
/** Last entry: a file that has it is whole. */
export const MANIFEST_PATH = 'manifest.json';

export const about = z.object({
  format: z.literal(FORMAT),
  version: z.number().int().positive(),
  /** version of Slipdrift that wrote it */
  program: z.string(),
  /** the last migration of the database; `at` is its time in the journal of migrations, in ms */
  migration: z.object({ name: z.string(), at: z.number().int() }),
  postgresql: z.string(),
  taken_at: z.iso.datetime(),
});
export type About = z.infer<typeof about>;

const backedUpTable = z.object({
  name: z.string().min(1),
  columns: z.array(z.string()),
  partition: z.object({ of: z.string(), bound: z.string() }).nullable(),
  rows: z.number().int().nonnegative(),
  /** of the text, unpacked */
  bytes: z.number().int().nonnegative(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  /** files that the text is cut into */
  parts: z.number().int().nonnegative(),
});
export type BackedUpTable = z.infer<typeof backedUpTable>;

export const manifest = about.extend({
  tables: z.array(backedUpTable),
  sequences: z.array(z.object({ name: z.string(), last_value: z.number(), is_called: z.boolean() })),
});
export type Manifest = z.infer<typeof manifest>;

const PART = /^tables\/([^/]+)\/(\d{6,})\.copy$/;

export const partPath = (table: string, part: number): string =>
  `tables/${encodeURIComponent(table)}/${String(part).padStart(6, '0')}.copy`;

/** Of which table a file is a part, and which, from 1; null for anything else. */
export function readPartPath(path: string): { table: string; part: number } | null {
  const [, table, part] = PART.exec(path) ?? [];
  return table === undefined ? null : { table: decodeURIComponent(table), part: Number(part) };
}

export interface TableCount {
  name: string;
  rows: number;
}

/** Rows of every table, a partitioned one counted as one. */
export function countByTable({ tables }: Manifest): TableCount[] {
  const counts = new Map<string, number>();
  for (const { name, partition, rows } of tables) {
    const whole = partition?.of ?? name;
    counts.set(whole, (counts.get(whole) ?? 0) + rows);
  }
  return [...counts].map(([name, rows]) => ({ name, rows }));
}
