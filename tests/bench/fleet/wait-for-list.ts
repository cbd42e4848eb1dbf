import { setTimeout as sleep } from 'node:timers/promises';
import type { RawClient } from '#db/client.ts';

const LONGEST_S = 1800;
/** Each look costs what is measured some processor time. */
const LOOK_MS = 100;

/** Until no vehicle has readings that the list does not know of. */
export async function waitForList(client: RawClient): Promise<void> {
  const untilMs = performance.now() + LONGEST_S * 1000;
  for (;;) {
    const [row] = await client<{ left: boolean }[]>`
      select exists (select from touched_vehicles) or exists (select from claimed_vehicles) as left`;
    if (row?.left === false) return;
    if (performance.now() > untilMs) throw new Error(`the list is not up to date after ${LONGEST_S} s`);
    await sleep(LOOK_MS);
  }
}
