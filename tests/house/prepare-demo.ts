import { z } from 'zod';
import { accessKey } from '#server/contract/keys.ts';
import { session } from '#server/contract/people.ts';
import { vehicleDetail } from '#server/contract/vehicle.ts';
import type { Role } from '#server/contract/words.ts';

/** A call to the demo as one of its accounts. */
export type Ask = (path: string, method?: string, body?: unknown) => Promise<Response>;

export interface DemoPerson {
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
  return {
    cookies,
    ask: (path, method = 'GET', body) => send(url + path, { origin: url, cookie }, method, body),
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

const invited = [
  { name: 'Wren Calloway', email: 'wren.calloway@varrowdale.example', role: 'planner' },
  { name: 'Tobin Ashgrove', email: 'tobin.ashgrove@varrowdale.example', role: 'shop' },
];
const keys = [
  { name: 'gateway, north gate', right: 'deliver' },
  { name: 'monthly report', right: 'read', expires_at: '2030-12-31T23:59:59Z' },
];

/** What the pictures of people, keys and the shop need to show something. */
export async function prepareDemo({ ask }: DemoPerson, vehicle: string, depot: string): Promise<void> {
  for (const one of invited) await ask('/api/people', 'POST', one);
  const there = z.array(accessKey).parse(await (await ask('/api/keys')).json());
  for (const one of keys)
    if (!there.some(({ name }) => name === one.name)) await ask('/api/keys', 'POST', one);
  const path = `/api/vehicles/${encodeURIComponent(vehicle)}`;
  const { shop } = vehicleDetail.parse(await (await ask(path)).json());
  if (shop !== null) return;
  await ask(`${path}/shop`, 'PUT', {
    depot,
    note: 'Shudders between 60 and 80 km/h when warm. Stands at gate 2, key at the desk.',
  });
}
