import type { Role } from '#server/contract/words.ts';
import { seesAnalysis, seesBayPlan, seesDigest, seesPlatforms, seesSettings } from '#web/api/role-rights.ts';

/** Why a screen is not for somebody of this role; null where it is. */
export function sayRefusal(pathname: string, role: Role): string | null {
  if (isIn('/settings', pathname) && !seesSettings(role))
    return 'Settings are for admins. Ask an admin for what you need here.';
  if (isIn('/platforms', pathname) && !seesPlatforms(role))
    return 'Platforms are for planner, analyst and admin. A shop sees the vehicles that were sent to it.';
  if (isIn('/analysis', pathname) && !seesAnalysis(role))
    return 'The analysis is for planner, analyst and admin. A shop sees the vehicles that were sent to it.';
  if (isIn('/bay-plan', pathname) && !seesBayPlan(role))
    return 'The bay plan is for planner, analyst and admin. A shop sees the vehicles that were sent to it.';
  if (isIn('/digest', pathname) && !seesDigest(role))
    return 'The digest is for planner, analyst and admin. A shop sees the vehicles that were sent to it.';
  return null;
}

const isIn = (folder: string, pathname: string): boolean =>
  pathname === folder || pathname.startsWith(`${folder}/`);
