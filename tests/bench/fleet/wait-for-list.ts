import { setTimeout as sleep } from 'node:timers/promises';
import type { RawClient } from '#db/client.ts';

const LONGEST_S = 1800;

/** Until no vehicle has readings that the list does not know of. */
export async function waitForList(client: RawClient): Promise<void> {
  const untilMs = performance.now() + LONGEST_S * 1000;
  for (;;) {
    const [row] = await client<{ left: number }[]>`
      select (select count(*) from touched_vehicles) + (select count(*) from claimed_vehicles) as left`;
    if (row?.left === 0) return;
    if (performance.now() > untilMs)
      throw new Error(`the list is not up to date after ${LONGEST_S} s: ${row?.left} vehicles are left`);
    await sleep(50);
  }
}
