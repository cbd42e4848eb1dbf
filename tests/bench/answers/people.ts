import { hashPassword } from 'better-auth/crypto';
import { z } from 'zod';
import { newKey } from '#server/contract/keys.ts';
import { addAccount } from '#server/services/people/one-time-address.ts';
import { openContext } from '#tests/bench/fleet/make-fleet.ts';
import { BENCH_KEY, type BenchServer } from '#tests/bench/open-server.ts';

export type Headers = Record<string, string>;

const account = { email: 'planner@bench.example', password: 'a password of the bench' };

/** Makes a planner, signs in, and answers what their browser would send. */
export async function addPlanner(server: BenchServer): Promise<{ origin: string; cookie: string }> {
  await addAccount(openContext(server), {
    name: 'Planner',
    email: account.email,
    role: 'planner',
    depots: null,
    hash: await hashPassword(account.password),
  });
  const { url } = server;
  const answer = await fetch(`${url}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: url },
    body: JSON.stringify(account),
  });
  const cookie = z
    .array(z.string())
    .min(1)
    .parse(answer.headers.getSetCookie())
    .map((line) => line.split(';')[0] ?? '')
    .join('; ');
  return { origin: url, cookie };
}

/** Makes a key that reads, and answers what a machine would send. */
export async function addReader({ url }: BenchServer): Promise<Headers> {
  const answer = await fetch(`${url}/api/keys`, {
    method: 'POST',
    headers: { authorization: `Bearer ${BENCH_KEY}`, 'content-type': 'application/json' },
    body: JSON.stringify({ name: 'reader of the bench', right: 'read', requests_per_minute: 100_000 }),
  });
  return { authorization: `Bearer ${newKey.parse(await answer.json()).secret}` };
}
