import { join } from 'node:path';
import { type Command, Option } from 'commander';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { gatewayNames } from '#demo-fleet/gateways.ts';
import { type ScenarioName, scenarioNames } from '#demo-fleet/scenarios.ts';
import { showProgress } from '#server/cli/progress.ts';
import { runUntilStopped } from '#server/cli/run-until-stopped.ts';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import type { Booking } from '#server/contract/bookings.ts';
import { createErrorLog } from '#server/create-log.ts';
import { ListenError, type Listening, listen } from '#server/listen.ts';
import { type Running, startSlipdrift } from '#server/main.ts';
import { programActor } from '#server/services/actor.ts';
import { bringUpToDate } from '#server/services/assessment/bring-up-to-date.ts';
import type { Context } from '#server/services/context.ts';
import { addKey } from '#server/services/keys/set-up-keys.ts';
import { readSettings, type Settings, SettingsError } from '#server/settings.ts';
import { assessFleet } from './assess-fleet.ts';
import { bookSince, bookWeekBefore } from './book-some.ts';
import { dateDeliveries } from './date-deliveries.ts';
import { DEMO_ACCOUNTS } from './demo-accounts.ts';
import { readDemoState, writeDemoState } from './demo-state.ts';
import { PLANNER, visitShop } from './past-visits.ts';
import { seedFleet } from './seed-fleet.ts';
import { sendSomeToShop } from './send-some-to-shop.ts';

interface DemoFlags {
  port?: string;
  scenario: ScenarioName;
  fresh?: boolean;
}

/** How many ports after the first are tried when nobody asked for one. */
const SPARE_PORTS = 20;
const LOOPBACK = '127.0.0.1';
const WEEK_DAYS = 7;

export function addDemo(program: Command): void {
  program
    .command('demo')
    .description('start with a simulated fleet, on a database of its own that touches no other')
    .option('-p, --port <number>', 'port, else PORT, else 4280 or the next free one')
    .option('--fresh', 'forget the fleet of before and simulate one that ends today')
    .addOption(new Option('--scenario <name>', 'which fleet').choices(scenarioNames).default('operator'))
    .addHelpText('after', '\nExample:\n  slipdrift demo\n  slipdrift demo --fresh --port 8080')
    .action(demo);
}

async function demo(flags: DemoFlags): Promise<void> {
  const startedMs = performance.now();
  const { settings, portGiven } = readDemoSettings(flags);
  const log = createErrorLog(settings.logLevel);
  if (flags.fresh === true) removeStorage(settings.dataFolder);
  const abort = new AbortController();
  const screens = ensureScreens(abort.signal);
  screens.catch(() => {});
  await runUntilStopped(
    () =>
      startSlipdrift(settings, log, {
        demo: DEMO_ACCOUNTS,
        ...(portGiven ? {} : { listenOn: (fetch) => listenNearby(fetch, settings) }),
      }),
    async (running, signal) => {
      signal.addEventListener('abort', () => abort.abort());
      await fill(running, settings, flags.scenario, signal);
      await screens;
      const seconds = ((performance.now() - startedMs) / 1000).toFixed(0);
      console.log(`\nSlipdrift is at ${running.url} (ready in ${seconds} s).`);
      console.log('Sign in as one of these; the page has a button for each:');
      for (const { role, email, password } of DEMO_ACCOUNTS)
        console.log(`  ${role.padEnd(8)} ${email.padEnd(28)} ${password}`);
      console.log(`The demo fleet lives in ${settings.dataFolder}. Stop with Ctrl-C.`);
    },
  );
  abort.abort();
}

/** The demo never touches the database that DATABASE_URL names, and tells its passwords: nobody else may reach it. */
function readDemoSettings(flags: DemoFlags): { settings: Settings; portGiven: boolean } {
  const host = process.env.HOST;
  if (host !== undefined && !['', 'localhost', LOOPBACK].includes(host))
    throw new SettingsError(
      `HOST is ${host}, and the demo shows its passwords to everybody who reaches it: leave HOST at ${LOOPBACK}.`,
    );
  const port = flags.port ?? process.env.PORT;
  const settings = readSettings({
    ...process.env,
    SLIPDRIFT_LOG_LEVEL: process.env.SLIPDRIFT_LOG_LEVEL || 'warn',
    DATABASE_URL: undefined,
    HOST: LOOPBACK,
    SLIPDRIFT_PUBLIC_URL: undefined,
    SLIPDRIFT_OIDC_ISSUER: undefined,
    SLIPDRIFT_OIDC_CLIENT_ID: undefined,
    SLIPDRIFT_OIDC_CLIENT_SECRET: undefined,
    PORT: port,
  });
  const name = flags.scenario === 'operator' ? 'demo' : `demo-${flags.scenario}`;
  return {
    settings: { ...settings, dataFolder: join(settings.dataFolder, name) },
    portGiven: port !== undefined && port !== '',
  };
}

async function fill(
  running: Running,
  settings: Settings,
  scenario: ScenarioName,
  signal: AbortSignal,
): Promise<void> {
  const state = await readDemoState(settings.dataFolder, scenario, new Date());
  if (state.seeded) return;
  await writeDemoState(settings.dataFolder, state);
  const context = { ...running.context, actor: programActor('demo') };
  const key = await addKey(context, {
    name: 'Simulated register',
    right: 'write',
    expires_at: null,
    requests_per_minute: 100_000,
    max_body_mib: null,
  });
  const gatewayKeys: Record<string, string> = {};
  for (const name of gatewayNames) {
    const made = await addKey(context, {
      name,
      right: 'deliver',
      expires_at: null,
      requests_per_minute: 100_000,
      max_body_mib: null,
    });
    gatewayKeys[name] = made.secret;
  }
  let booked: Booking[] = [];
  // The fleet is assessed once as it was a week ago, so that there is a week to look back on.
  const release = running.assessment.hold();
  const progress = showProgress('Simulating and sending the fleet');
  const receipts = await seedFleet(
    {
      baseUrl: running.url,
      apiKey: key.secret,
      gatewayKeys,
      scenario: state.scenario,
      end: state.end,
      truthPath: join(settings.dataFolder, 'truth.json'),
      interludeDaysBeforeEnd: WEEK_DAYS,
    },
    progress,
    signal,
    async (job) => {
      if (job !== null) return visitShop(context, job);
      const then = weekBefore({ ...context, actor: PLANNER }, state.end);
      await bringUpToDate(then, { learn: true });
      booked = await bookWeekBefore(then);
    },
  ).finally(() => {
    progress.stop();
    release();
  });
  await dateDeliveries(context.db, receipts);
  console.error(await assessFleet(running.url, key.secret, signal));
  await sendSomeToShop(context);
  await bookSince({ ...context, actor: PLANNER }, booked);
  await writeDemoState(settings.dataFolder, { ...state, seeded: true });
}

/** The same with the clock at the beginning of the day a week before the fleet's last. */
const weekBefore = (context: Context, end: string): Context => {
  const then = new Date(end);
  then.setUTCHours(0, 0, 0, 0);
  then.setUTCDate(then.getUTCDate() - WEEK_DAYS);
  return { ...context, now: () => then };
};

async function listenNearby(fetch: Parameters<typeof listen>[0], settings: Settings): Promise<Listening> {
  for (let port = settings.port; ; port += 1) {
    try {
      const listening = await listen(fetch, settings.host, port);
      if (port !== settings.port)
        console.error(`Port ${settings.port} is in use; port ${port} is used instead.`);
      return listening;
    } catch (error) {
      if (!(error instanceof ListenError && error.portTaken) || port >= settings.port + SPARE_PORTS)
        throw error;
    }
  }
}
