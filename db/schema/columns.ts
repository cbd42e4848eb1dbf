import { customType, timestamp } from 'drizzle-orm/pg-core';

/** A moment, kept with its zone and read as Date. */
export const instant = (name: string) => timestamp(name, { withTimezone: true, mode: 'date' });
export const bytes = customType<{ data: Buffer }>({ dataType: () => 'bytea' });
