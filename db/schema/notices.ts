import { sql } from 'drizzle-orm';
import {
  boolean,
  index,
  integer,
  jsonb,
  pgTable,
  serial,
  smallint,
  text,
  uniqueIndex,
  uuid,
} from 'drizzle-orm/pg-core';
import { instant } from './columns.ts';

/** Addresses of other programs that are told when a grade worsens. */
export const webhooks = pgTable('webhooks', {
  id: serial('id').primaryKey(),
  name: text('name').notNull(),
  url: text('url').notNull(),
  /** signs what is sent (HMAC-SHA-256); kept as it is, because a digest cannot sign */
  secret: text('secret').notNull(),
  /** told of changes to these */
  grades: text('grades').array().notNull(),
  paused: boolean('paused').notNull().default(false),
  createdAt: instant('created_at').notNull().defaultNow(),
  createdBy: text('created_by').notNull(),
  endedAt: instant('ended_at'),
});

/** One change of one vehicle's grade on its way to one address. */
export const webhookPosts = pgTable(
  'webhook_posts',
  {
    /** names the event to its receiver, the same in every try */
    id: uuid('id').primaryKey(),
    webhook: integer('webhook')
      .notNull()
      .references(() => webhooks.id, { onDelete: 'cascade' }),
    vehicle: integer('vehicle').notNull(),
    /** of the change */
    at: instant('at').notNull(),
    /** what is sent, as it was when the grade changed */
    body: jsonb('body').notNull(),
    state: text('state', { enum: ['waiting', 'given', 'given_up'] })
      .notNull()
      .default('waiting'),
    tries: smallint('tries').notNull().default(0),
    nextAt: instant('next_at'),
    /** of the last try: status of the answer, or what went wrong */
    lastAt: instant('last_at'),
    lastStatus: smallint('last_status'),
    lastFault: text('last_fault'),
  },
  (table) => [
    uniqueIndex('webhook_posts_event').on(table.webhook, table.vehicle, table.at),
    index('webhook_posts_waiting').on(table.nextAt).where(sql`${table.state} = 'waiting'`),
    index('webhook_posts_at').on(table.at),
  ],
);
