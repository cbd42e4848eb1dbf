import { openDatabase, type RawClient } from '#db/client.ts';
import type { RawTransaction } from '#db/connection.ts';

/** Runs `work` on one connection of its own. Where it fails, whatever the server still does for it is cut short. */
export async function runAlone<T>(url: string, work: (client: RawClient) => Promise<T>): Promise<T> {
  const { client, close } = openDatabase(url, { connections: 1 });
  let pid: unknown = null;
  try {
    const [row] = await client`select pg_backend_pid() as pid`;
    pid = row?.pid;
    return await work(client);
  } catch (error) {
    if (pid !== null) await endSession(url, Number(pid));
    throw error;
  } finally {
    await close(0);
  }
}

async function endSession(url: string, pid: number): Promise<void> {
  const { client, close } = openDatabase(url, { connections: 1 });
  // Where the server is gone, so is the session.
  await client`select pg_terminate_backend(${pid})`.catch(() => {});
  await close(0);
}

/** A transaction of which a failure is told at once: the driver would first wait for the end of a COPY under way. */
export function runTransaction<T>(
  client: RawClient,
  mode: string,
  work: (transaction: RawTransaction) => Promise<T>,
): Promise<T> {
  return new Promise<T>((settle, fail) => {
    const begun = client.begin(mode, async (transaction) => {
      try {
        return { value: await work(transaction) };
      } catch (error) {
        fail(error);
        throw error;
      }
    });
    begun.then((done) => settle((done as { value: T }).value), fail);
  });
}
