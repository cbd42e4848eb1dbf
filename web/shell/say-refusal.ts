import type { Role } from '#server/contract/words.ts';
import {
  seesAnalysis,
  seesBayPlan,
  seesDigest,
  seesIntake,
  seesPlatforms,
  seesSettings,
} from '#web/api/role-rights.ts';

/** A planner of some depots may set up what is theirs. */
const OWN_FILES = '/intake/set-up';

/** Why a screen is not for somebody of this role; null where it is. */
export function sayRefusal(
  pathname: string,
  role: Role,
  depots: readonly string[] | null = null,
): string | null {
  if (isIn('/settings', pathname) && !seesSettings(role))
    return 'Settings are for admins. Ask an admin for what you need here.';
  if (
    isIn('/intake', pathname) &&
    !seesIntake(role, depots) &&
    !(isIn(OWN_FILES, pathname) && seesIntake(role, null))
  )
    return 'The intake is for planner and admin of all depots: what comes in may be of any vehicle.';
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
