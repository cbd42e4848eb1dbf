import { afterAll, beforeAll, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { recipes } from './fleet/recipes.ts';
import { simulateFleet } from './fleet/simulate-fleet.ts';
import { runFleet } from './run-fleet.ts';
import { type FleetScore, scoreFleet } from './score-fleet.ts';
import { type Program, startProgram } from './start-program.ts';
import { type Summary, summariseScores } from './summarise-scores.ts';

/**
 * Floors for one fleet of 100 vehicles, below what `npm run evaluate` finds on all: 10 vehicles to find, 18 forecasts and
 * 7 crossings scatter by more than what a regression is worth noticing at, so each floor stands two standard errors or
 * more under the figure of the large run.
 */
const DAYS_BETWEEN_LOOKS = 42;

let database: TestDatabase;
let program: Program;
let score: FleetScore;
let summary: Summary;

beforeAll(async () => {
  const recipe = recipes.find(({ name }) => name === 'small');
  if (recipe === undefined) throw new Error('the small fleet has no recipe');
  database = await createTestDatabase();
  program = await startProgram({ databaseUrl: database.url });
  const fleet = simulateFleet(recipe);
  score = scoreFleet(fleet, await runFleet(program, fleet, DAYS_BETWEEN_LOOKS));
  summary = summariseScores([score]);
  process.stdout.write(`${JSON.stringify(summary)}\n`);
}, 300_000);

afterAll(async () => {
  await program?.stop();
  await database?.drop();
});

it('orders the list about as well as one that knows the true slip, and far better than plain rules', () => {
  expect(score.wanted).toBeGreaterThanOrEqual(8);
  expect(summary.leastOfOracle).toBeGreaterThan(0.9);
  const { engine, level, change, line } = summary.averagePrecision;
  for (const plain of [level, change, line]) expect(engine - plain).toBeGreaterThan(0.2);
});

it('flags who is near the limit and leaves the healthy alone', () => {
  expect(score.engine.near.of).toBeGreaterThanOrEqual(3);
  expect(score.engine.near.of - score.engine.near.hit).toBeLessThanOrEqual(1);
  expect(score.engine.healthy.of).toBeGreaterThan(60);
  expect(score.engine.healthy.hit).toBeLessThanOrEqual(1);
});

it('says how far each is from the limit, and how sure that is', () => {
  expect(summary.forecasts).toBeGreaterThanOrEqual(12);
  expect(summary.covered80).toBeGreaterThan(0.6);
  expect(summary.error).toBeLessThan(0.6);
});

it('says so thousands of kilometres before', () => {
  expect(summary.crossings).toBeGreaterThanOrEqual(5);
  expect(summary.noticeKm.engine).toBeGreaterThan(3_000);
});
