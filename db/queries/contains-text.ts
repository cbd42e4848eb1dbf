import { ilike, type SQL } from 'drizzle-orm';
import type { PgColumn } from 'drizzle-orm/pg-core';

/** Rows in which a column has this text anywhere, in capital or small letters; % and _ stand for themselves. */
export const containsText = (column: PgColumn, text: string): SQL =>
  ilike(column, `%${text.replace(/[\\%_]/g, '\\$&')}%`);
