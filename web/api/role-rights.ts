import type { Role } from '#server/contract/words.ts';

/** What the screens offer to whom. The server decides; this only spares people what it would refuse. */
export const seesDigest = (role: Role): boolean => role !== 'shop';
export const seesPlatforms = (role: Role): boolean => role !== 'shop';
export const seesAnalysis = (role: Role): boolean => role !== 'shop';
/** Deliveries and refused lines may be of any vehicle: they are for people of all depots. */
export const seesIntake = (role: Role, depots: readonly string[] | null): boolean =>
  (role === 'planner' || role === 'admin') && depots === null;
export const seesSettings = (role: Role): boolean => role === 'admin';
export const sendsToShop = (role: Role): boolean => role === 'planner' || role === 'admin';
export const seesBayPlan = (role: Role): boolean => role !== 'shop';
export const changesBookings = (role: Role): boolean => role === 'planner' || role === 'admin';
export const setsUpVehicles = (role: Role): boolean => role === 'planner' || role === 'admin';
export const opensPackets = (role: Role): boolean => role !== 'analyst';
