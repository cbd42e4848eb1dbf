import { z } from 'zod';
import { accessKey } from '#server/contract/keys.ts';
import { vehicleDetail } from '#server/contract/vehicle.ts';
import type { DemoPerson } from '#tests/helpers/sign-in-demo.ts';

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
