import type { RawClient } from '#db/client.ts';

/** The lock of `bring-up-to-date.ts`: who holds it is the one that assesses. */
const RUN_LOCK = 730_511_505;

/** Keeps the background assessment waiting until the answer is called. */
export async function holdAssessment(client: RawClient): Promise<() => Promise<void>> {
  const own = await client.reserve();
  await own`select pg_advisory_lock(${RUN_LOCK})`;
  return async () => {
    await own`select pg_advisory_unlock(${RUN_LOCK})`;
    own.release();
  };
}
