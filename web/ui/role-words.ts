import type { Role } from '#server/contract/words.ts';

/** What each role is here for, after its name. */
export const roleWords: Record<Role, string> = {
  planner: 'decides what is inspected; sends vehicles to a shop',
  shop: 'sees the vehicles that were sent to its shop',
  analyst: 'reads everything, changes nothing',
  admin: 'everything, and people, keys and changes',
};
