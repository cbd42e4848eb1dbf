import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import SlowFirst from './tests/helpers/slow-first.ts';

const globalSetup = ['tests/helpers/make-run-folder.ts', 'tests/helpers/start-postgres.ts'];
const unit = ['server/**/*.test.ts', 'db/**/*.test.ts', 'web/**/*.test.{ts,tsx}', 'demo-fleet/**/*.test.ts'];

const patient = {
  globalSetup,
  // The processors are shared: a second is not always enough.
  expect: { poll: { timeout: 20_000 } },
  testTimeout: 120_000,
  hookTimeout: 120_000,
};

export default defineConfig({
  test: {
    // Many tests wait for processes of their own: two at a time fit two processors.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    execArgv: ['--import', new URL('./tests/helpers/mend-driver.mjs', import.meta.url).href],
    sequence: { sequencer: SlowFirst },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          // Plain functions: what one file imported, the next may use. Parting them took two thirds of the time.
          isolate: false,
          testTimeout: 20_000,
          include: [...unit, 'tests/{bench,house,evaluate/fleet,measure/soak}/**/*.test.ts'],
          globalSetup,
        },
      },
      {
        extends: true,
        test: {
          ...patient,
          name: 'calls',
          // As above: imports took nearly half of the time. What a server keeps in memory it keeps by its own database.
          isolate: false,
          include: ['tests/{published,api}/**/*.test.ts'],
        },
      },
      {
        extends: true,
        test: {
          ...patient,
          name: 'screens',
          // As above: each file would else load server, driver and fixtures anew, before a page is opened.
          isolate: false,
          include: ['tests/{recovery,browser}/**/*.test.ts'],
        },
      },
      {
        extends: true,
        test: {
          ...patient,
          name: 'whole',
          include: ['tests/{faults,fuzz}/**/*.test.ts', 'tests/evaluate/*.test.ts'],
        },
      },
    ],
  },
});
