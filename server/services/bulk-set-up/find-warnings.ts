import { type Database, rawClient } from '#db/client.ts';
import { depots } from '#db/schema/fleet.ts';
import type { SetUpFileWarning } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { judgeVin } from '#server/contract/vin.ts';
import type { SetUpKind } from '#server/contract/words.ts';
import type { Context } from '#server/services/context.ts';
import type { FileInput } from './read-inputs.ts';

type Warn = (line: number, field: string, message: string) => void;

const SHOWN_LINES = 20;
const EXAMPLE = /^EXAMPLE-|^example-/;

/** What may be wrong and is taken all the same. The same said of many lines is said once. */
export async function findWarnings(
  { db, now }: Context,
  kind: SetUpKind,
  inputs: readonly FileInput[],
): Promise<SetUpFileWarning[]> {
  const found = new Map<string, SetUpFileWarning>();
  const warn: Warn = (line, field, message) => {
    const key = `${field} ${message}`;
    const warning = found.get(key) ?? { field, message, count: 0, lines: [] };
    warning.count += 1;
    if (warning.lines.length < SHOWN_LINES) warning.lines.push(line);
    found.set(key, warning);
  };
  for (const { line, input } of inputs) {
    if (EXAMPLE.test(String(input.id ?? input.vehicle)))
      warn(line, '', 'is the example of the template; leave it out of your own file');
    for (const field of ['fitted_at', 'removed_at', 'day'])
      if (typeof input[field] === 'string' && Date.parse(input[field]) > now().getTime() + 86_400_000)
        warn(line, field, 'is in the future');
  }
  if (kind === 'depots') warnOfBays(inputs, warn);
  if (kind === 'failures') warnOfNearOnes(inputs, warn);
  if (kind === 'vehicles') await warnOfPlaces(db, inputs, warn);
  if (kind !== 'depots' && kind !== 'platforms') await warnOfVehicles(db, kind, inputs, warn);
  return [...found.values()];
}

function warnOfBays(inputs: readonly FileInput[], warn: Warn): void {
  for (const { line, input } of inputs)
    if (input.bays === 0) warn(line, 'bays', 'is 0: nothing can be booked at this depot');
}

async function warnOfPlaces(db: Database, inputs: readonly FileInput[], warn: Warn): Promise<void> {
  const rows = await db.select({ id: depots.id, bays: depots.bays }).from(depots);
  const without = new Set(rows.filter(({ bays }) => bays === 0).map(({ id }) => id));
  for (const { line, input } of inputs) {
    const { depot, vin } = input;
    if (typeof depot === 'string' && without.has(depot))
      warn(line, 'depot', `${depot} has no bays: nothing can be booked there`);
    if (typeof vin !== 'string') continue;
    const { warning } = judgeVin(vin);
    if (warning !== null) warn(line, 'vin', warning);
  }
}

const NEAR_KM = 500;

function warnOfNearOnes(inputs: readonly FileInput[], warn: Warn): void {
  const last = new Map<string, number>();
  const kmOf = ({ input }: FileInput) => Number(input.odometer_km);
  for (const one of inputs.toSorted((a, b) => kmOf(a) - kmOf(b))) {
    const unit = String(one.input.vehicle);
    const before = last.get(unit);
    if (before !== undefined && kmOf(one) - before < NEAR_KM)
      warn(
        one.line,
        'odometer_km',
        `is less than ${NEAR_KM} km after the change before: perhaps the same one`,
      );
    last.set(unit, kmOf(one));
  }
}

async function warnOfVehicles(
  db: Database,
  kind: SetUpKind,
  inputs: readonly FileInput[],
  warn: Warn,
): Promise<void> {
  const unitOf = ({ input }: FileInput) => String(input.id ?? input.vehicle);
  const units = [...new Set(inputs.map(unitOf))];
  const rows = await rawClient(db)<{ unit: string; retired: boolean; sends: boolean }[]>`
    select unit, retired, exists (select from reading_spans r where r.vehicle = vehicles.key) as sends from vehicles
    where unit in (select jsonb_array_elements_text(${JSON.stringify(units)}::text::jsonb))`;
  const known = new Map(rows.map((row) => [row.unit, row]));
  const field = kind === 'vehicles' ? 'id' : 'vehicle';
  for (const one of inputs) {
    const { line, input } = one;
    const vehicle = known.get(unitOf(one));
    if (vehicle?.sends !== true)
      warn(line, field, 'has sent no reading yet: compare it with what the gateways send');
    if (vehicle?.retired === true && input.retired === undefined) warn(line, field, 'is retired');
  }
}
