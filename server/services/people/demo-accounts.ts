import { inArray } from 'drizzle-orm';
import { people } from '#db/schema/access.ts';
import type { Session } from '#server/contract/people.ts';
import type { Context } from '#server/services/context.ts';
import { addAccount } from './one-time-address.ts';
import type { SignInLibrary } from './sign-in-library.ts';

export type DemoAccounts = NonNullable<Session['demo']>;

/** Makes the accounts that are not there yet. Everybody is told their passwords: never on an address that others reach. */
export async function addDemoAccounts(
  ctx: Context,
  library: SignInLibrary,
  accounts: DemoAccounts,
): Promise<DemoAccounts> {
  const { password: passwords } = await library.$context;
  const emails = accounts.map(({ email }) => email);
  const known = await ctx.db
    .select({ email: people.email })
    .from(people)
    .where(inArray(people.email, emails));
  for (const { name, email, role, password } of accounts)
    if (!known.some((one) => one.email === email))
      await addAccount(ctx, { name, email, role, hash: await passwords.hash(password) });
  return accounts;
}
