import { type AnyColumn, sql } from 'drizzle-orm';

const ORDER = "when 'hold' then 3 when 'book' then 2 when 'watch' then 1 else 0 end";

/** How urgent a grade is. Who was unknown and is steady, or the other way round, is neither better nor worse. */
export const urgency = (grade: AnyColumn) => sql`case ${grade} ${sql.raw(ORDER)}`;

/** The same as text of SQL, of a column named by us. */
export const urgencyText = (column: string): string => `case ${column} ${ORDER}`;
