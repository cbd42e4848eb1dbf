import { mkdtemp, rm } from 'node:fs/promises';
import { register } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { recipes } from './fleet/recipes.ts';
import { parts } from './leave-out-hook.mjs';
import type { FleetScore } from './score-fleet.ts';

/**
 * `npm run evaluate -- [--without part] [--last] [fleet …]`: how good list and forecasts are on simulated fleets whose
 * physics the engine does not know. Each fleet goes through the program as its gateways would send it, is assessed every
 * fourth week, and is compared with its truth. Without names all fleets of 300 vehicles run; those kept aside are for
 * reports, not for tuning. `--without` leaves a part of the engine out; `--last` looks only at the end, which tells
 * nothing of notice and takes a third of the time.
 */
const DAYS_BETWEEN_LOOKS = 28;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { without: { type: 'string' }, last: { type: 'boolean', default: false } },
});
const unknown = positionals.filter((name) => !recipes.some((recipe) => recipe.name === name));
if (unknown.length > 0)
  stop(`No fleet is called ${unknown.join(', ')}: ${recipes.map(({ name }) => name).join(', ')}`);
if (values.without !== undefined) {
  if (!(values.without in parts))
    stop(`No part is called ${values.without}: ${Object.keys(parts).join(', ')}`);
  register('./leave-out-hook.mjs', import.meta.url, { data: values.without });
}

// Only now, so that what is left out is left out of them.
const { removeStorage } = await import('#db/embedded/remove-storage.ts');
const { simulateFleet } = await import('./fleet/simulate-fleet.ts');
const { runFleet } = await import('./run-fleet.ts');
const { scoreFleet } = await import('./score-fleet.ts');
const { startProgram } = await import('./start-program.ts');
const { summariseScores } = await import('./summarise-scores.ts');
const { writeChanceTable, writeFleetTable, writeQualityTable, writeWearTable } = await import(
  './write-tables.ts'
);

async function evaluate(recipe: (typeof recipes)[number]): Promise<FleetScore> {
  const started = performance.now();
  const folder = await mkdtemp(join(tmpdir(), 'slipdrift-evaluate-'));
  const program = await startProgram({ dataFolder: folder });
  try {
    const fleet = simulateFleet(recipe);
    const days = values.last ? Number.POSITIVE_INFINITY : DAYS_BETWEEN_LOOKS;
    const score = scoreFleet(fleet, await runFleet(program, fleet, days));
    console.log(`${recipe.name}: ${Math.round((performance.now() - started) / 1000)} s`);
    return score;
  } finally {
    await program.stop();
    removeStorage(folder);
    await rm(folder, { recursive: true, force: true });
  }
}

const asked = recipes.filter(({ name }) =>
  positionals.length > 0 ? positionals.includes(name) : name !== 'small',
);
const scores = new Map<string, FleetScore>();
for (const recipe of asked) scores.set(recipe.name, await evaluate(recipe));
const without = values.without === undefined ? '' : `, without ${values.without}`;
for (const [title, kept] of [
  ['Kept aside', true],
  ['Seen while building', false],
] as const) {
  const some = asked.filter((recipe) => recipe.kept === kept).flatMap(({ name }) => scores.get(name) ?? []);
  if (some.length === 0) continue;
  console.log(`\n${writeQualityTable(title + without, summariseScores(some))}`);
  console.log(`\n${writeFleetTable(some)}`);
  console.log(`\n${writeWearTable(some)}`);
  console.log(`\n${writeChanceTable(some)}`);
}

function stop(sentence: string): never {
  console.error(sentence);
  process.exit(2);
}
