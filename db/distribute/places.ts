/**
 * Where every table is kept once there are several machines, for `slipdrift distribute`; docs/scale.md says why so. A
 * test holds that each table of the schema has one place.
 */

export const SPLIT_COLUMN = 'vehicle';

/** Split by vehicle: what grows with readings. The first one gives the group in which all others lie together. */
export const splitByVehicle = [
  'reading_spans',
  'readings',
  'stretches',
  'stretch_totals',
  'odometer_steps',
  'odometer_answers',
  'assessments',
  'grade_changes',
  'standings',
  'lives',
  'life_weeks',
  'sender_weeks',
] as const;

/** A copy on every node: small, seldom changed, and read together with the tables that are split. */
export const onEveryNode = [
  'depots',
  'platforms',
  'vehicles',
  'trouble_codes',
  'fleet_settings',
  'platform_contexts',
  'fleet_events',
  'life_fits',
  'people',
  'bookings',
  'packets',
  'shop_vehicles',
  'saved_filters',
  'mappings',
] as const;

/** Left on the first node, each for a reason. */
export const onOneNode: Readonly<Record<string, string>> = {
  touched_vehicles: 'a queue: rows are locked, taken and deleted, over and over',
  claimed_vehicles: 'a queue: taken with SKIP LOCKED',
  due_platforms: 'a queue of a few rows, one a platform',
  receipts: 'a log, one row a delivery, read alone',
  refused_lines: 'read with their receipts, numbered in one sequence, locked one by one',
  changes: 'triggers keep its rows as they were written; tables on several nodes can have none',
  webhooks: 'read with their posts and nothing else',
  webhook_posts: 'a queue: taken with SKIP LOCKED',
  replays: 'a queue of a few rows, claimed one at a time',
  upkeep_runs: 'a log, one row a day',
  settled_months: 'one row a month, of the tables of the first node',
  sessions: 'read and written at each sign-in, with people alone',
  sign_in_ways: 'read at sign-in, with people alone',
  one_time_tokens: 'short-lived, read alone',
  sign_in_attempts: 'changed with each wrong password, read alone',
  access_keys: 'noted as used with requests, read alone',
  installation: 'a secret or two, read at start',
  sent_digests: 'claimed row by row by whoever sends the mail',
  depot_feeds: 'one row a depot, noted as used',
  workbench_sets: 'pasted tables of people, read alone',
  packet_evidence: 'large, one row a packet, read alone',
  packet_files: 'photographs and traces: a copy on every node would fill them',
  findings: 'refer to files, read alone by packet',
  packet_links: 'secrets, read alone',
  packet_openings: 'a log of links',
};
