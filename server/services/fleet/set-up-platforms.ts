import { eq, inArray } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { type Platform, platformChange, platformInput } from '#server/contract/fleet.ts';
import type { FieldError } from '#server/contract/problems.ts';
import type { Context } from '#server/services/context.ts';
import { mergePlatform, toPlatform, toPlatformRow } from './platform-rows.ts';
import { readElements, refuseSetUp } from './read-elements.ts';
import {
  actionOf,
  type Change,
  changedFields,
  runSetUp,
  type SetUpChange,
  type SetUpOptions,
  type SetUpOutcome,
} from './set-up.ts';
import { addReach, type Reach, touchFleet } from './touch-fleet.ts';

/** What a stretch is made with. */
const SHAPES_STRETCHES = new Set<keyof Platform>([
  'band_edges_pct',
  'reference',
  'gate',
  'reference_torque_nm',
]);
/** What the arithmetic reads beside stretches. Costs ask for a new rank alone, which the assessment sees by itself. */
const SHAPES_ASSESSMENTS = new Set<keyof Platform>(['limit_rpm', 'life_km']);

export async function setUpPlatforms(
  context: Context,
  body: unknown,
  options: SetUpOptions = {},
): Promise<SetUpOutcome> {
  const elements = readElements(body, platformChange, (platform) => platform.id, options.lines);
  return runSetUp(context, options, async ({ db: transaction }) => {
    const changes: Change[] = [];
    const noted: SetUpChange[] = [];
    const reaches = new Map<string, Reach>();
    const errors: FieldError[] = [];
    for (const { line, input, value } of elements) {
      const [row] = await transaction.select().from(platforms).where(eq(platforms.id, value.id));
      const before = row === undefined ? null : toPlatform(row);
      const read = before === null ? platformInput.safeParse(input) : mergePlatform(before, input);
      if (!read.success) {
        for (const { path, message } of read.error.issues)
          errors.push({ line, field: path.map(String).join('.'), message });
        continue;
      }
      const after = read.data;
      const fields = before === null ? [] : changedFields(before, after);
      if (before !== null && fields.length === 0) {
        changes.push('unchanged');
        continue;
      }
      changes.push(before === null ? 'created' : 'changed');
      const set = toPlatformRow(after, context.now());
      await transaction.insert(platforms).values(set).onConflictDoUpdate({ target: platforms.id, set });
      noted.push({ ...actionOf(before), subject: 'platform', subjectId: value.id, before, after, line });
      if (fields.some((field) => SHAPES_STRETCHES.has(field))) reaches.set(value.id, 'stretches');
      else if (fields.some((field) => SHAPES_ASSESSMENTS.has(field))) reaches.set(value.id, 'assessment');
    }
    if (errors.length > 0) throw refuseSetUp(errors);
    await touchPlatforms(transaction, reaches);
    return { changes, noted };
  });
}

async function touchPlatforms(transaction: Database, reaches: Map<string, Reach>): Promise<void> {
  if (reaches.size === 0) return;
  const rows = await transaction
    .select({ key: vehicles.key, platform: vehicles.platform })
    .from(vehicles)
    .where(inArray(vehicles.platform, [...reaches.keys()]));
  const touched = new Map<number, Reach>();
  for (const { key, platform } of rows) addReach(touched, key, reaches.get(platform ?? '') ?? 'assessment');
  await touchFleet(transaction, touched);
}
