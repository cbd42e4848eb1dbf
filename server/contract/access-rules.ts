import type { KeyRight, Role } from './words.ts';

/** Whom a call answers. The key of SLIPDRIFT_API_KEY may call whatever any key or the admin may. */
export interface AccessRule {
  /** what the OpenAPI document says of it */
  says: string;
  anyone?: true;
  people: readonly Role[];
  /** closed to people who work for some depots only */
  allDepots?: true;
  keys: readonly KeyRight[];
  /** what whoever holds the link of a packet may do with that packet; nothing where left out */
  links?: 'read' | 'report';
}

const everybody = ['planner', 'shop', 'analyst', 'admin'] as const;
const office = ['planner', 'analyst', 'admin'] as const;
const readers = ['read', 'write'] as const;

/** Every call names one of these. What a person's depots leave of an answer is the services' part. */
export const accessRules = {
  anyone: { says: 'anyone', anyone: true, people: everybody, keys: [] },
  self: { says: 'whoever is signed in, about themselves', people: everybody, keys: [] },
  officeSelf: { says: 'planner, analyst, admin, about themselves', people: office, keys: [] },
  deliver: {
    says: 'gateways; planners and admins of all depots',
    people: ['planner', 'admin'],
    keys: ['deliver', 'write'],
  },
  readVehicles: {
    says: 'all people, the shop only vehicles sent to it; keys that read',
    people: everybody,
    keys: readers,
  },
  readPacket: {
    says: 'all people, the shop those of its own; keys that read; the link of the packet',
    people: everybody,
    keys: readers,
    links: 'read',
  },
  report: {
    says: 'planner, shop, admin; keys that write; the link of the packet where it may report',
    people: ['planner', 'shop', 'admin'],
    keys: ['write'],
    links: 'report',
  },
  share: {
    says: 'planner, shop, admin; keys that write',
    people: ['planner', 'shop', 'admin'],
    keys: ['write'],
  },
  ownLink: { says: 'whoever holds the link of a packet', people: [], keys: [], links: 'read' },
  readFleet: { says: 'planner, analyst, admin; keys that read', people: office, keys: readers },
  analyse: {
    says: 'planner, analyst, admin; keys that write',
    people: office,
    keys: ['write'],
  },
  readNames: { says: 'all people; keys that read', people: everybody, keys: readers },
  readIntake: {
    says: 'planners and admins of all depots; keys that read',
    people: ['planner', 'admin'],
    keys: readers,
  },
  plan: { says: 'planner, admin; keys that write', people: ['planner', 'admin'], keys: ['write'] },
  setUp: { says: 'admin; keys that write', people: ['admin'], keys: ['write'] },
  administer: { says: 'admins of all depots', people: ['admin'], allDepots: true, keys: [] },
} as const satisfies Record<string, AccessRule>;

export type AccessRuleName = keyof typeof accessRules;
