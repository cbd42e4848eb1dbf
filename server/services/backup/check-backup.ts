import { BackupError } from './backup-error.ts';
import { createTextCounter } from './count-text.ts';
import {
  ABOUT_PATH,
  type About,
  about,
  FORMAT,
  FORMAT_VERSION,
  MANIFEST_PATH,
  type Manifest,
  manifest,
  readPartPath,
} from './manifest.ts';
import { damaged, type Entry, notABackup, type ReadOptions, readEntries } from './read-entries.ts';

type Found = { counter: ReturnType<typeof createTextCounter>; parts: number };

/**
 * Reads a whole backup and answers what it says of itself, once every table has been found to be what it says: nothing
 * missing, nothing besides, and every digest right.
 */
export async function checkBackup(path: string, options: ReadOptions = {}): Promise<Manifest> {
  let head: About | null = null;
  let said: Manifest | null = null;
  const found = new Map<string, Found>();
  for await (const entry of readEntries(path, options)) {
    if (said !== null) throw damaged(path, 'something follows its end');
    if (head === null) head = readAbout(path, entry);
    else if (entry.path === MANIFEST_PATH) said = readManifest(path, entry);
    else takePart(path, entry, found);
  }
  if (head === null) throw notABackup(path);
  if (said === null) throw damaged(path, 'it ends before its end');
  compare(path, said, found);
  return said;
}

function readAbout(path: string, { path: name, content }: Entry): About {
  const said = name === ABOUT_PATH ? readJson(content) : null;
  if ((said as Partial<About> | null)?.format !== FORMAT) throw notABackup(path);
  const { version, program } = said as Partial<About>;
  if (typeof version === 'number' && version > FORMAT_VERSION)
    throw new BackupError(
      `${path} is in a format of Slipdrift ${program}, which this version cannot read. Nothing was changed; restore it with that version or a later one.`,
    );
  const parsed = about.safeParse(said);
  if (!parsed.success) throw damaged(path, `${ABOUT_PATH} is not what it should be`);
  return parsed.data;
}

function readManifest(path: string, { content }: Entry): Manifest {
  const parsed = manifest.safeParse(readJson(content));
  if (!parsed.success) throw damaged(path, `${MANIFEST_PATH} is not what it should be`);
  return parsed.data;
}

function takePart(path: string, entry: Entry, found: Map<string, Found>): void {
  const place = readPartPath(entry.path);
  if (place === null) throw damaged(path, `${entry.path} has no place in it`);
  const table = found.get(place.table) ?? { counter: createTextCounter(), parts: 0 };
  found.set(place.table, table);
  table.parts += 1;
  if (place.part !== table.parts) throw damaged(path, `pieces of ${place.table} are missing`);
  table.counter.add(entry.content);
}

function compare(path: string, { tables }: Manifest, found: Map<string, Found>): void {
  for (const table of tables) {
    const { counter, parts } = found.get(table.name) ?? { counter: createTextCounter(), parts: 0 };
    found.delete(table.name);
    const { rows, bytes, sha256 } = counter.finish();
    if (parts !== table.parts || rows !== table.rows || bytes !== table.bytes || sha256 !== table.sha256)
      throw damaged(path, `the rows of ${table.name} are not those that were written`);
  }
  const [left] = found.keys();
  if (left !== undefined) throw damaged(path, `it does not say what ${left} is`);
}

function readJson(content: Buffer): unknown {
  try {
    return JSON.parse(content.toString('utf8'));
  } catch {
    return null;
  }
}
