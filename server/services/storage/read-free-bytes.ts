import { statfs } from 'node:fs/promises';
import { type Database, rawClient } from '#db/client.ts';

/** Free space of the disk that our own PostgreSQL keeps its data on; null where it cannot be told. */
export async function readFreeBytes(db: Database): Promise<number | null> {
  try {
    const [row] = await rawClient(db).unsafe('show data_directory');
    const { bavail, bsize } = await statfs(String(row?.data_directory));
    return bavail * bsize;
  } catch {
    return null;
  }
}
