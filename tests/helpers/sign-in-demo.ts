import { session } from '#server/contract/people.ts';
import type { Role } from '#server/contract/words.ts';

/** The Cookie header of one of the accounts that a demo shows. */
export async function signInDemo(url: string, role: Role): Promise<string> {
  const { demo } = session.parse(await (await fetch(`${url}/api/session`)).json());
  const account = demo?.find((one) => one.role === role);
  if (account === undefined) throw new Error(`${url} is no demo: it shows no account of the ${role}.`);
  const answer = await fetch(`${url}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ email: account.email, password: account.password }),
  });
  if (!answer.ok) throw new Error(`${url} answered ${answer.status}: ${await answer.text()}`);
  return answer.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
}
