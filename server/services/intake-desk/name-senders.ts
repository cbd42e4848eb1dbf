import { inArray } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { accessKeys, people } from '#db/schema/access.ts';
import { type Sender, senderKinds } from '#server/contract/intake.ts';

export type NameSender = (id: string | null) => Sender | null;

/** Parts of the program that bring readings, as people know them. */
const programs: Record<string, string> = { mqtt: 'MQTT', folder: 'watched folder' };

/** The present names of senders, each asked for once. */
export async function nameSenders(db: Database, ids: Iterable<string | null>): Promise<NameSender> {
  const all = [...new Set(ids)].filter((id) => id !== null).map(splitSender);
  const idsOf = (kind: Sender['kind']) => all.filter((one) => one.kind === kind).map(({ own }) => own);
  const [keys, persons] = [idsOf('key'), idsOf('person')];
  const [keyRows, personRows] = await Promise.all([
    keys.length === 0
      ? []
      : db
          .select({ id: accessKeys.id, name: accessKeys.name })
          .from(accessKeys)
          .where(inArray(accessKeys.id, keys)),
    persons.length === 0
      ? []
      : db.select({ id: people.id, name: people.name }).from(people).where(inArray(people.id, persons)),
  ]);
  const names = new Map<string, string>([
    ...keyRows.map(({ id, name }) => [`key:${id}`, name] as const),
    ...personRows.map(({ id, name }) => [`person:${id}`, name] as const),
  ]);
  return (id) => {
    if (id === null) return null;
    const { kind, own } = splitSender(id);
    return { id, kind, name: names.get(id) ?? (kind === 'program' ? (programs[own] ?? own) : own) };
  };
}

export function splitSender(id: string): { kind: Sender['kind']; own: string } {
  const at = id.indexOf(':');
  const kind = senderKinds.find((one) => one === id.slice(0, at)) ?? 'program';
  return { kind, own: id.slice(at + 1) };
}
