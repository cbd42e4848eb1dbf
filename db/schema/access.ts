import { sql } from 'drizzle-orm';
import { bigserial, boolean, index, integer, jsonb, pgTable, text, uniqueIndex } from 'drizzle-orm/pg-core';
import { bytes, instant } from './columns.ts';
import { depots, vehicles } from './fleet.ts';

/** Those who sign in. The names of fields up to `updatedAt`, here and in the next three tables, are the sign-in library's. */
export const people = pgTable('people', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  /** lower case */
  email: text('email').notNull().unique(),
  emailVerified: boolean('email_verified').notNull().default(false),
  image: text('image'),
  createdAt: instant('created_at').notNull().defaultNow(),
  updatedAt: instant('updated_at').notNull().defaultNow(),
  role: text('role', { enum: ['planner', 'shop', 'analyst', 'admin'] }).notNull(),
  /** null for all of them */
  depots: text('depots').array(),
  /** may not sign in any more */
  closed: boolean('closed').notNull().default(false),
  signedInAt: instant('signed_in_at'),
  /** gets the weekly digest by e-mail, where the installation can send any */
  weeklyDigest: boolean('weekly_digest').notNull().default(false),
  /** units of its sentences: those that the person read in when they asked for it */
  digestUnits: text('digest_units', { enum: ['metric', 'imperial'] })
    .notNull()
    .default('metric'),
});

/** Places where somebody is signed in. */
export const sessions = pgTable(
  'sessions',
  {
    id: text('id').primaryKey(),
    expiresAt: instant('expires_at').notNull(),
    token: text('token').notNull().unique(),
    createdAt: instant('created_at').notNull().defaultNow(),
    updatedAt: instant('updated_at').notNull().defaultNow(),
    ipAddress: text('ip_address'),
    userAgent: text('user_agent'),
    userId: text('user_id')
      .notNull()
      .references(() => people.id, { onDelete: 'cascade' }),
  },
  (table) => [index('sessions_user').on(table.userId)],
);

/** How a person may sign in: by password (scrypt) or through the company. */
export const signInWays = pgTable(
  'sign_in_ways',
  {
    id: text('id').primaryKey(),
    accountId: text('account_id').notNull(),
    providerId: text('provider_id').notNull(),
    userId: text('user_id')
      .notNull()
      .references(() => people.id, { onDelete: 'cascade' }),
    accessToken: text('access_token'),
    refreshToken: text('refresh_token'),
    idToken: text('id_token'),
    accessTokenExpiresAt: instant('access_token_expires_at'),
    refreshTokenExpiresAt: instant('refresh_token_expires_at'),
    scope: text('scope'),
    password: text('password'),
    createdAt: instant('created_at').notNull().defaultNow(),
    updatedAt: instant('updated_at').notNull().defaultNow(),
  },
  (table) => [
    index('sign_in_ways_user').on(table.userId),
    uniqueIndex('sign_in_ways_account').on(table.providerId, table.accountId),
  ],
);

/** One-time addresses, by a digest of what they hold, and company sign-ins under way. */
export const oneTimeTokens = pgTable(
  'one_time_tokens',
  {
    id: text('id').primaryKey(),
    identifier: text('identifier').notNull(),
    value: text('value').notNull(),
    expiresAt: instant('expires_at').notNull(),
    createdAt: instant('created_at').notNull().defaultNow(),
    updatedAt: instant('updated_at').notNull().defaultNow(),
  },
  (table) => [index('one_time_tokens_identifier').on(table.identifier)],
);

/** Wrong passwords in a row, for addresses that have an account and for those that have none alike. */
export const signInAttempts = pgTable('sign_in_attempts', {
  email: text('email').primaryKey(),
  failed: integer('failed').notNull(),
  lockedUntil: instant('locked_until'),
  at: instant('at').notNull(),
});

/** Keys of machines. */
export const accessKeys = pgTable('access_keys', {
  /** 12 hexadecimal digits; part of the key */
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  right: text('right', { enum: ['deliver', 'read', 'write'] }).notNull(),
  /** SHA-256 of the secret part, which has 256 random bits */
  digest: bytes('digest').notNull(),
  /** per minute, of one process */
  requestsPerMinute: integer('requests_per_minute').notNull(),
  maxBodyMib: integer('max_body_mib'),
  createdAt: instant('created_at').notNull().defaultNow(),
  createdBy: text('created_by').notNull(),
  expiresAt: instant('expires_at'),
  revokedAt: instant('revoked_at'),
  usedAt: instant('used_at'),
  usedFrom: text('used_from'),
});

/** Vehicles that were sent to the shop of a depot, whose people see them until they are called back. */
export const shopVehicles = pgTable(
  'shop_vehicles',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    vehicle: integer('vehicle')
      .notNull()
      .references(() => vehicles.key, { onDelete: 'cascade' }),
    depot: text('depot')
      .notNull()
      .references(() => depots.id),
    sentAt: instant('sent_at').notNull(),
    sentBy: text('sent_by').notNull(),
    note: text('note'),
    endedAt: instant('ended_at'),
    endedBy: text('ended_by'),
  },
  (table) => [
    index('shop_vehicles_vehicle').on(table.vehicle),
    uniqueIndex('shop_vehicles_one').on(table.vehicle).where(sql`ended_at is null`),
    index('shop_vehicles_depot').on(table.depot).where(sql`ended_at is null`),
  ],
);

/** Who changed what. The migration that made the table added triggers: rows can be added and nothing else. */
export const changes = pgTable(
  'changes',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    at: instant('at').notNull(),
    actorKind: text('actor_kind', { enum: ['person', 'key', 'link', 'program'] }).notNull(),
    actorId: text('actor_id'),
    /** as it was called then */
    actorName: text('actor_name').notNull(),
    /** network address of the request */
    from: text('from_address'),
    request: text('request'),
    action: text('action').notNull(),
    subject: text('subject').notNull(),
    subjectId: text('subject_id').notNull(),
    /** the fields that differ */
    before: jsonb('before').$type<Record<string, unknown>>(),
    after: jsonb('after').$type<Record<string, unknown>>(),
  },
  (table) => [index('changes_subject').on(table.subject, table.subjectId), index('changes_at').on(table.at)],
);

/** What an installation makes up once and keeps, such as the secret that cookies are signed with. */
export const installation = pgTable('installation', {
  name: text('name').primaryKey(),
  value: text('value').notNull(),
});
