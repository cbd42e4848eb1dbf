import { type Command, InvalidArgumentError, Option } from 'commander';
import { type AccessKey, type KeyInput, keyInput } from '#server/contract/keys.ts';
import { keyRights } from '#server/contract/words.ts';
import { addKey, listKeys, revokeKey } from '#server/services/keys/set-up-keys.ts';
import { alignColumns } from './align-columns.ts';
import { withContext } from './with-context.ts';

interface AddFlags {
  may: KeyInput['right'];
  days?: number;
  perMinute?: number;
  maxBodyMib?: number;
}

export function addKeys(program: Command): void {
  const keys = program
    .command('keys')
    .description('keys of machines: list, add, revoke')
    .addHelpText(
      'after',
      '\nExamples:\n  slipdrift keys add "Gateway of the north depot"\n  slipdrift keys add "Workshop system" --may write --days 365\n  slipdrift keys list\n  slipdrift keys revoke 3f9c01d2aa41',
    );
  keys
    .command('list', { isDefault: true })
    .description('whose keys there are, what they may do and when they were used last')
    .action(() => withContext(async ({ context }) => console.log(describeKeys(await listKeys(context)))));
  keys
    .command('add')
    .description('make a key and print it, this once, on standard output')
    .argument('<name>', 'whose it is: one key for each machine')
    .addOption(new Option('--may <right>', 'what it may do').choices(keyRights).default('deliver'))
    .option('--days <number>', 'how long it works; for ever, unless said', toWholeNumber)
    .option('--per-minute <number>', 'requests in a minute (600)', toWholeNumber)
    .option(
      '--max-body-mib <number>',
      'longest delivery, MiB; that of the installation, unless said',
      toWholeNumber,
    )
    .action(add);
  keys
    .command('revoke')
    .description('end a key, at once and for good')
    .argument('<id>', 'as the list shows it')
    .action((id: string) =>
      withContext(async ({ context }) => {
        const { name } = await revokeKey(context, id);
        console.log(`The key '${name}' is revoked.`);
      }),
    );
}

async function add(name: string, { may, days, perMinute, maxBodyMib }: AddFlags): Promise<void> {
  await withContext(async ({ context }) => {
    const expiresAt = days === undefined ? null : new Date(Date.now() + days * 86_400_000).toISOString();
    const { key, secret } = await addKey(
      context,
      keyInput.parse({
        name,
        right: may,
        expires_at: expiresAt,
        ...(perMinute === undefined ? {} : { requests_per_minute: perMinute }),
        ...(maxBodyMib === undefined ? {} : { max_body_mib: maxBodyMib }),
      }),
    );
    console.error(
      `The key '${key.name}' may ${key.right}. It is shown this once; send it as Authorization: Bearer <key>.`,
    );
    console.log(secret);
  });
}

function describeKeys(keys: readonly AccessKey[]): string {
  if (keys.length === 0) return 'There are no keys yet. slipdrift keys add NAME makes one.';
  return alignColumns([
    ['ID', 'NAME', 'MAY', 'STATE', 'RUNS OUT', 'LAST USED'],
    ...keys.map(({ id, name, right, state, expires_at, used_at }) => [
      id,
      name,
      right,
      state,
      expires_at?.slice(0, 10) ?? 'never',
      used_at?.slice(0, 16).replace('T', ' ') ?? 'never',
    ]),
  ]);
}

function toWholeNumber(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 1)
    throw new InvalidArgumentError('It must be a whole number from 1.');
  return number;
}
