import { sql } from 'drizzle-orm';
import {
  bigint,
  bigserial,
  boolean,
  doublePrecision,
  index,
  integer,
  jsonb,
  pgTable,
  text,
  uniqueIndex,
} from 'drizzle-orm/pg-core';
import { bytes, instant } from './columns.ts';
import { depots, vehicles } from './fleet.ts';

/** What a shop receives with a vehicle, and what it reports back: one row a visit. */
export const packets = pgTable(
  'packets',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    vehicle: integer('vehicle')
      .notNull()
      .references(() => vehicles.key, { onDelete: 'cascade' }),
    /** whose shop does the work */
    depot: text('depot').references(() => depots.id),
    state: text('state', { enum: ['open', 'closed'] }).notNull(),
    /** counts the changes of the report: who changes it names the one that they saw */
    version: integer('version').notNull().default(1),
    openedAt: instant('opened_at').notNull(),
    openedBy: text('opened_by').notNull(),
    /** why the vehicle was flagged, as it stood when the packet was opened */
    flag: jsonb('flag').notNull(),
    /** parts, cooler and teardown, saved as the work goes on */
    report: jsonb('report').notNull(),
    outcome: text('outcome', { enum: ['repaired', 'no_fault_found', 'declined'] }),
    closedAt: instant('closed_at'),
    closedBy: text('closed_by'),
    /** when the work was done */
    workAt: instant('work_at'),
    /** of the instrument, when the work was done */
    odometerKm: doublePrecision('odometer_km'),
    cause: text('cause'),
    reason: text('reason').notNull().default(''),
    /** why it was closed without the cooler record that was due */
    withoutCooler: text('without_cooler').notNull().default(''),
    /** kilometres that the old converter had run, before its fitting here too where that is on record; null where its fitting is not known */
    converterKm: doublePrecision('converter_km'),
    /** how the old life ended; null where it goes on */
    ended: text('ended', { enum: ['failed', 'preventive'] }),
    /** mileage at which the next life began; null where none did */
    newLifeKm: doublePrecision('new_life_km'),
    /** the list stays calm up to this mileage unless slip rises over what it was at closing, rpm */
    calmUntilKm: doublePrecision('calm_until_km'),
    calmSlipRpm: doublePrecision('calm_slip_rpm'),
  },
  (table) => [
    uniqueIndex('packets_open').on(table.vehicle).where(sql`state = 'open'`),
    index('packets_vehicle').on(table.vehicle, table.id),
    index('packets_depot').on(table.depot, table.id),
    index('packets_calm').on(table.vehicle).where(sql`calm_until_km is not null`),
  ],
);

/** The series of the vehicle as it stood when its packet was opened: what the job was judged on stays to be seen. */
export const packetEvidence = pgTable('packet_evidence', {
  packet: bigint('packet', { mode: 'number' })
    .primaryKey()
    .references(() => packets.id, { onDelete: 'cascade' }),
  series: jsonb('series').notNull(),
});

/** Files of a packet: photographs as they came, recorded traces as they came in gzip. */
export const packetFiles = pgTable(
  'packet_files',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    packet: bigint('packet', { mode: 'number' })
      .notNull()
      .references(() => packets.id, { onDelete: 'cascade' }),
    kind: text('kind', { enum: ['photo', 'trace'] }).notNull(),
    name: text('name').notNull(),
    /** told from the content, never from what the sender said */
    type: text('type').notNull(),
    /** as it came */
    size: integer('size').notNull(),
    /** SHA-256 of the file as it came: the same one twice is kept once */
    digest: bytes('digest').notNull(),
    content: bytes('content').notNull(),
    addedAt: instant('added_at').notNull(),
    addedBy: text('added_by').notNull(),
  },
  (table) => [uniqueIndex('packet_files_once').on(table.packet, table.kind, table.digest)],
);

/** What test steps showed. A step that is done again adds a row; the newest counts. */
export const findings = pgTable(
  'findings',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    packet: bigint('packet', { mode: 'number' })
      .notNull()
      .references(() => packets.id, { onDelete: 'cascade' }),
    step: text('step', {
      enum: ['fluid', 'road_test', 'solenoid_current', 'pressure', 'pan', 'cooler'],
    }).notNull(),
    at: instant('at').notNull(),
    by: text('by').notNull(),
    /** of the newest reading then, km */
    odometerKm: doublePrecision('odometer_km'),
    /** as it was sent */
    input: jsonb('input').notNull(),
    /** verdict, rule and words, as they were given then */
    judgement: jsonb('judgement').notNull(),
    /** a recorded road test, thinned for drawing */
    trace: jsonb('trace'),
    file: bigint('file', { mode: 'number' }).references(() => packetFiles.id),
  },
  (table) => [index('findings_packet').on(table.packet, table.id)],
);

/** Secret addresses that open one packet without an account. */
export const packetLinks = pgTable(
  'packet_links',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    packet: bigint('packet', { mode: 'number' })
      .notNull()
      .references(() => packets.id, { onDelete: 'cascade' }),
    /** SHA-256 of the secret, which has 256 random bits */
    digest: bytes('digest').notNull().unique(),
    label: text('label').notNull(),
    mayReport: boolean('may_report').notNull(),
    madeAt: instant('made_at').notNull(),
    madeBy: text('made_by').notNull(),
    expiresAt: instant('expires_at').notNull(),
    revokedAt: instant('revoked_at'),
    revokedBy: text('revoked_by'),
  },
  (table) => [index('packet_links_packet').on(table.packet)],
);

/** Every opening of a link, and every try with one that had ended. */
export const packetOpenings = pgTable(
  'packet_openings',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    link: bigint('link', { mode: 'number' })
      .notNull()
      .references(() => packetLinks.id, { onDelete: 'cascade' }),
    at: instant('at').notNull(),
    /** network address of the request */
    from: text('from_address'),
    /** what was asked for, in words */
    what: text('what').notNull(),
    /** what the browser calls itself */
    browser: text('browser').notNull(),
  },
  (table) => [index('packet_openings_link').on(table.link, table.id)],
);
