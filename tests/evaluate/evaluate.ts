import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { recipes } from './fleet/recipes.ts';
import { simulateFleet } from './fleet/simulate-fleet.ts';
import { runFleet } from './run-fleet.ts';
import { type FleetScore, scoreFleet } from './score-fleet.ts';
import { startProgram } from './start-program.ts';
import { summariseScores } from './summarise-scores.ts';
import { writeFleetTable, writeQualityTable, writeWearTable } from './write-tables.ts';

/**
 * `npm run evaluate [-- name …]`: how good list and forecasts are on simulated fleets whose physics the engine does not
 * know. Each fleet goes through the program as its gateways would send it, is assessed every second week, and is
 * compared with its truth. Without names all fleets run; those kept aside are for reports, not for tuning.
 */
const DAYS_BETWEEN_LOOKS = 14;

async function evaluate(recipe: (typeof recipes)[number]): Promise<FleetScore> {
  const started = performance.now();
  const folder = await mkdtemp(join(tmpdir(), 'slipdrift-evaluate-'));
  const program = await startProgram({ dataFolder: folder });
  try {
    const fleet = simulateFleet(recipe);
    const score = scoreFleet(fleet, await runFleet(program, fleet, DAYS_BETWEEN_LOOKS));
    const seconds = Math.round((performance.now() - started) / 1000);
    console.log(`${recipe.name}: ${seconds} s`);
    return score;
  } finally {
    await program.stop();
    removeStorage(folder);
    await rm(folder, { recursive: true, force: true });
  }
}

const names = process.argv.slice(2);
const unknown = names.filter((name) => !recipes.some((recipe) => recipe.name === name));
if (unknown.length > 0) {
  console.error(
    `No fleet is called ${unknown.join(', ')}. There are ${recipes.map(({ name }) => name).join(', ')}.`,
  );
  process.exit(2);
}
const asked = recipes.filter(({ name }) => (names.length > 0 ? names.includes(name) : name !== 'small'));
const scores = new Map<string, FleetScore>();
for (const recipe of asked) scores.set(recipe.name, await evaluate(recipe));

for (const [title, kept] of [
  ['Kept aside', true],
  ['Seen while building', false],
] as const) {
  const some = asked.filter((recipe) => recipe.kept === kept).flatMap(({ name }) => scores.get(name) ?? []);
  if (some.length === 0) continue;
  console.log(`\n${writeQualityTable(title, summariseScores(some))}`);
  console.log(`\n${writeFleetTable(some)}`);
  console.log(`\n${writeWearTable(some)}`);
}
