import type { ActorKind, KeyRight, Role } from '#server/contract/words.ts';

/** Who asks, and how far that reaches. */
export interface Actor {
  kind: ActorKind;
  /** of the person or key */
  id: string | null;
  name: string;
  /** of a person */
  role: Role | null;
  /** of a key; `all` for the key of SLIPDRIFT_API_KEY */
  right: KeyRight | 'all' | null;
  /** depots that a person works for; null for all */
  depots: readonly string[] | null;
  /** network address of the request */
  from: string | null;
  request: string | null;
  /** the one packet that whoever holds a link may open, and whether they may report; null for all others */
  link: { packet: number; vehicle: number; mayReport: boolean } | null;
  /** longest delivery that a key may send, bytes; null for that of the installation */
  maxBodyBytes: number | null;
  /** refuses where the access has ended or changed since; null where it cannot */
  confirm: (() => Promise<void>) | null;
}

/** The program itself, or whoever runs its command line: nobody stands between them and the storage. */
export const programActor = (name: string): Actor => ({
  kind: 'program',
  id: null,
  name,
  role: null,
  right: 'all',
  depots: null,
  from: null,
  request: null,
  link: null,
  maxBodyBytes: null,
  confirm: null,
});

/** Who has not said yet who they are: may do nothing, and sees no vehicle. */
export const nobody: Actor = { ...programActor('somebody not signed in'), right: null, depots: [] };

/** A short name of the sender that stays the same while its own name changes. */
export const senderOf = ({ kind, id, name }: Actor): string => `${kind}:${id ?? name}`;
