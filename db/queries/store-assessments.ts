import { type Database, rawClient } from '#db/client.ts';
import type { assessments } from '#db/schema/analysis.ts';
import { lockAssessments } from './lock-assessments.ts';

export type NewAssessment = Omit<
  typeof assessments.$inferInsert,
  'asOf' | 'rank' | 'grade' | 'q' | 'chance' | 'costAvoided'
>;

/** A vehicle that has no rank yet stands behind all that have. */
const LAST_RANK = 2_147_483_647;
const ROWS = 200;

/** As they are named here, in storage, and what they are there. */
const columns: readonly (readonly [key: keyof NewAssessment, name: string, type: string])[] = [
  ['vehicle', 'vehicle', 'integer'],
  ['pattern', 'pattern', 'text'],
  ['life', 'life', 'smallint'],
  ['referenceSlipRpm', 'reference_slip_rpm', 'float8'],
  ['baselineRpm', 'baseline_rpm', 'float8'],
  ['limitRpm', 'limit_rpm', 'float8'],
  ['onsetKm', 'onset_km', 'float8'],
  ['driftRpmPerKm', 'drift_rpm_per_km', 'float8'],
  ['driftLow', 'drift_low', 'float8'],
  ['driftHigh', 'drift_high', 'float8'],
  ['p', 'p', 'float8'],
  ['kmP10', 'km_p10', 'float8'],
  ['kmP50', 'km_p50', 'float8'],
  ['kmP90', 'km_p90', 'float8'],
  ['kmPerDay', 'km_per_day', 'float8'],
  ['facts', 'facts', 'jsonb'],
  ['brief', 'brief', 'jsonb'],
  ['detail', 'detail', 'jsonb'],
];
const names = columns.map(([, name]) => name);

/**
 * Stores what was found of vehicles; rank, grade, q, chance and cost stay until the fleet is ranked again. In the caller's
 * transaction; nobody else may be storing what was found of the same vehicles.
 */
export async function storeAssessments(
  transaction: Database,
  asOf: Date,
  rows: readonly NewAssessment[],
): Promise<void> {
  if (rows.length === 0) return;
  await lockAssessments(transaction, 'beside others');
  for (let from = 0; from < rows.length; from += ROWS)
    await insert(transaction, asOf, rows.slice(from, from + ROWS));
}

async function insert(transaction: Database, asOf: Date, rows: readonly NewAssessment[]): Promise<void> {
  const named = rows.map((row) =>
    Object.fromEntries(columns.map(([key, name]) => [name, toJsonValue(row[key] ?? null)])),
  );
  await rawClient(transaction).unsafe(
    `insert into assessments as a (as_of, rank, grade, ${names.join(', ')})
    select $1::timestamptz, ${LAST_RANK}, 'unknown', r.*
    from jsonb_to_recordset($2::text::jsonb) as r(${columns.map(([, name, type]) => `${name} ${type}`).join(', ')})
    order by r.vehicle
    on conflict (vehicle) do update set as_of = excluded.as_of,
      ${names.map((name) => `${name} = excluded.${name}`).join(', ')}`,
    [asOf, JSON.stringify(named)],
  );
}

/** JSON has no name for what is not finite; the database reads it from text. */
const toJsonValue = (value: unknown): unknown =>
  typeof value === 'number' && !Number.isFinite(value) ? String(value) : value;
