import { type AnyColumn, type SQL, sql } from 'drizzle-orm';

/** How urgent a grade is. Who was unknown and is steady, or the other way round, is neither better nor worse. */
export const urgency = (grade: AnyColumn | SQL): SQL =>
  sql`case ${grade} when 'hold' then 3 when 'book' then 2 when 'watch' then 1 else 0 end`;
