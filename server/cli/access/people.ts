import { type Command, Option } from 'commander';
import { CommandError } from '#server/cli/command-error.ts';
import { invitation, type OfferedAddress } from '#server/contract/people.ts';
import { type Role, roles } from '#server/contract/words.ts';
import { changePerson, invitePerson, offerAddress } from '#server/services/people/change-people.ts';
import { listPeople } from '#server/services/people/list-people.ts';
import { alignColumns } from './align-columns.ts';
import { type CommandContext, withContext } from './with-context.ts';

interface InviteFlags {
  name?: string;
  role: Role;
  depot?: string[];
}

export function addPeople(program: Command): void {
  const people = program
    .command('people')
    .description('those who sign in: list, invite, or let somebody in again')
    .addHelpText(
      'after',
      '\nExamples:\n  slipdrift people invite mara@fleet.example --name "Mara Voss" --role planner --depot north\n  slipdrift people reset mara@fleet.example\n  slipdrift people list',
    );
  people
    .command('list', { isDefault: true })
    .description('who there is, with role, depots and last sign-in')
    .action(() => withContext(async (command) => console.log(await describePeople(command))));
  people
    .command('invite')
    .description('add a person and print the one-time address at which they set a password')
    .argument('<email>', 'e-mail address, with which they sign in')
    .option('--name <name>', 'name; else the part before the @')
    .addOption(new Option('--role <role>', 'what they are here for').choices(roles).default('planner'))
    .option('--depot <id...>', 'depots that they work for; all, unless said')
    .action(invite);
  people
    .command('reset')
    .description('print a one-time address for a new password; opens a locked or closed account too')
    .argument('<email>', 'e-mail address of the account')
    .action((email: string) => withContext((command) => reset(command, email)));
}

async function invite(email: string, { name, role, depot }: InviteFlags): Promise<void> {
  await withContext(async ({ context, library, origin, originIsSet }) => {
    const parsed = invitation.safeParse({
      email,
      name: name ?? email.split('@')[0],
      role,
      depots: depot ?? null,
    });
    if (!parsed.success) throw new CommandError(`${email}: ${parsed.error.issues[0]?.message}.`);
    tell(await invitePerson(context, library, parsed.data, origin), originIsSet);
  });
}

async function reset(
  { context, library, origin, originIsSet }: CommandContext,
  email: string,
): Promise<void> {
  const person = (await listPeople(context)).find((one) => one.email === email.toLowerCase());
  if (person === undefined)
    throw new CommandError(`Nobody has an account as ${email}. slipdrift people list names all.`);
  await changePerson(context, person.id, { unlock: true, closed: false });
  tell(await offerAddress(context, library, person.id, origin), originIsSet);
}

function tell({ person, address, expires_at }: OfferedAddress, originIsSet: boolean): void {
  console.error(
    `For ${person.name} (${person.email}, ${person.role}). It works once, until ${expires_at.slice(0, 16).replace('T', ' ')} UTC:`,
  );
  console.log(address);
  if (!originIsSet)
    console.error(
      'It opens on this machine. Where the server has another port or address, set PORT or SLIPDRIFT_PUBLIC_URL as it has them, and ask again.',
    );
}

async function describePeople({ context }: CommandContext): Promise<string> {
  const people = await listPeople(context);
  if (people.length === 0)
    return 'There is nobody yet. Start slipdrift serve, which prints the address for the first account, or use slipdrift people invite.';
  return alignColumns([
    ['E-MAIL', 'NAME', 'ROLE', 'DEPOTS', 'STATE', 'LAST SIGNED IN'],
    ...people.map(({ email, name, role, depots, state, signed_in_at }) => [
      email,
      name,
      role,
      depots?.join(' ') ?? 'all',
      state,
      signed_in_at?.slice(0, 16).replace('T', ' ') ?? 'never',
    ]),
  ]);
}
