import { Command, CommanderError } from 'commander';
import { StorageError } from '#db/storage-error.ts';
import { describeError } from '#server/create-log.ts';
import { SlipdriftError } from '#server/errors.ts';
import { ListenError } from '#server/listen.ts';
import { BackupError } from '#server/services/backup/backup-error.ts';
import { SettingsError } from '#server/settings.ts';
import { CommandError } from './command-error.ts';

const OK = 0;
const FAILED = 1;
const USAGE = 2;

/** Each is loaded where it is asked for: a program that lists keys needs none of what serves. */
const commands: Readonly<Record<string, (program: Command) => Promise<void>>> = {
  serve: async (program) => (await import('./serve.ts')).addServe(program),
  work: async (program) => (await import('./work.ts')).addWork(program),
  demo: async (program) => (await import('./demo/demo.ts')).addDemo(program),
  import: async (program) => (await import('./import/import.ts')).addImport(program),
  'set-up': async (program) => (await import('./set-up/set-up.ts')).addSetUp(program),
  assess: async (program) => (await import('./assess.ts')).addAssess(program),
  export: async (program) => (await import('./export/export.ts')).addExport(program),
  backup: async (program) => (await import('./backup/backup.ts')).addBackup(program),
  restore: async (program) => (await import('./backup/restore.ts')).addRestore(program),
  distribute: async (program) => (await import('./distribute/distribute.ts')).addDistribute(program),
  keys: async (program) => (await import('./access/keys.ts')).addKeys(program),
  notebook: async (program) => (await import('./access/notebook.ts')).addNotebook(program),
  people: async (program) => (await import('./access/people.ts')).addPeople(program),
  storage: async (program) => (await import('./storage/storage.ts')).addStorage(program),
};

/** Runs one command line and answers its exit code: 0 done, 1 failed, 2 asked wrongly. */
export async function runProgram(argv: string[]): Promise<number> {
  try {
    const program = await createProgram(argv[2]);
    await program.parseAsync(argv);
    return OK;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? OK : USAGE;
    console.error(`slipdrift: ${explain(error)}`);
    return error instanceof SettingsError ? USAGE : FAILED;
  }
}

/** With the command that is asked for alone, or with all of them for help. */
async function createProgram(asked = ''): Promise<Command> {
  const program = new Command('slipdrift')
    .description('Finds the vehicles of a fleet whose torque converter clutch starts to slip.')
    .showHelpAfterError('Try slipdrift --help.')
    .exitOverride()
    .addHelpText('after', settings);
  const named = Object.hasOwn(commands, asked) ? commands[asked] : undefined;
  for (const add of named === undefined ? Object.values(commands) : [named]) await add(program);
  return program;
}

const settings = `
Settings are environment variables:
  DATABASE_URL                    postgres://… of a server to use; else one of our own is started
  SLIPDRIFT_DATA                  folder of our own server's data (./data)
  HOST, PORT                      where to listen (127.0.0.1, 4280)
  SLIPDRIFT_PUBLIC_URL            https:// address that people use; without it this machine alone is served
  SLIPDRIFT_PROXIES               proxies of yours in front, whose X-Forwarded-For is believed (0)
  SLIPDRIFT_API_KEY               one key with all rights, for unattended set-up
  SLIPDRIFT_OIDC_ISSUER, SLIPDRIFT_OIDC_CLIENT_ID, SLIPDRIFT_OIDC_CLIENT_SECRET, SLIPDRIFT_OIDC_NAME
                                  sign-in through the company's OpenID Connect provider, and what it is called
  SLIPDRIFT_SMTP_URL              smtps:// or smtp:// address of a mail server, for the weekly digest
  SLIPDRIFT_MAIL_FROM             address that mail comes from, such as Slipdrift <slipdrift@fleet.example>
  SLIPDRIFT_MQTT_URL              mqtt://, mqtts://, ws:// or wss:// address of a broker to read from
  SLIPDRIFT_MQTT_TOPIC            its topic, whose + is the vehicle (slipdrift/+/readings)
  SLIPDRIFT_MQTT_USER, SLIPDRIFT_MQTT_PASSWORD
                                  of the broker, where the address does not hold them
  SLIPDRIFT_WATCH_FOLDER          folder from which files are taken in
  SLIPDRIFT_WORK                  here, or elsewhere: then slipdrift work does what is due (here)
  SLIPDRIFT_WORKERS               threads that assess (half of the cores, four at most)
  SLIPDRIFT_KEEP_READINGS_MONTHS  readings older than this are dropped, 0 keeps all (36)
  SLIPDRIFT_KEEP_RECEIPTS_MONTHS  receipts and settled refused lines older than this are deleted, 0 keeps all (0)
  SLIPDRIFT_MAX_BODY_MIB          longest delivery (256)
  SLIPDRIFT_BODY_IDLE_S           a delivery of which nothing comes for so many seconds is given up (60)
  SLIPDRIFT_NOTEBOOK_PORT         port of this machine for SQL of notebooks on our own server; none unless set
  SLIPDRIFT_LOG_LEVEL             debug, info, warn, error or silent (info)

Exit codes: 0 done, 1 failed, 2 asked wrongly.`;

/** One sentence for what a person can act on; the whole trace for what nobody foresaw. */
function explain(error: unknown): string {
  const foreseen = [SettingsError, StorageError, ListenError, SlipdriftError, CommandError, BackupError];
  if (foreseen.some((kind) => error instanceof kind)) return (error as Error).message;
  const { type, message, frames = '' } = describeError(error);
  return `${type}: ${message}\n${frames}`;
}
