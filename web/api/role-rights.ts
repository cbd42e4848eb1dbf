import type { Role } from '#server/contract/words.ts';

/** What the screens offer to whom. The server decides; this only spares people what it would refuse. */
export const seesPlatforms = (role: Role): boolean => role !== 'shop';
export const seesSettings = (role: Role): boolean => role === 'admin';
export const sendsToShop = (role: Role): boolean => role === 'planner' || role === 'admin';
