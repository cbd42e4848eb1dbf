import { session } from '#server/contract/people.ts';
import type { Role } from '#server/contract/words.ts';

/** A call to the demo as one of its accounts. */
export type Ask = (path: string, method?: string, body?: unknown) => Promise<Response>;

export interface DemoPerson {
  /** of any call to the demo */
  headers: Record<string, string>;
  /** for a browser context */
  cookies: { name: string; value: string; url: string }[];
  ask: Ask;
}

/** Signs in with the demo's own account of a role. */
export async function signInToDemo(url: string, role: Role): Promise<DemoPerson> {
  const { demo } = session.parse(await (await fetch(`${url}/api/session`)).json());
  const account = demo?.find((one) => one.role === role);
  if (account === undefined) throw new Error(`${url} is no demo with an account of the ${role}.`);
  const { email, password } = account;
  const answer = await send(`${url}/api/session`, { origin: url }, 'POST', { email, password });
  const cookies = answer.headers.getSetCookie().map((line) => {
    const pair = line.split(';')[0] ?? '';
    const at = pair.indexOf('=');
    return { name: pair.slice(0, at), value: pair.slice(at + 1), url };
  });
  const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ');
  const headers = { origin: url, cookie };
  return {
    headers,
    cookies,
    ask: (path, method = 'GET', body) => send(url + path, headers, method, body),
  };
}

async function send(address: string, headers: Record<string, string>, method: string, body?: unknown) {
  const answer = await fetch(address, {
    method,
    headers: { ...headers, ...(body === undefined ? {} : { 'content-type': 'application/json' }) },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  if (!answer.ok && answer.status !== 409)
    throw new Error(`${address} answered ${answer.status}: ${await answer.text()}`);
  return answer;
}
