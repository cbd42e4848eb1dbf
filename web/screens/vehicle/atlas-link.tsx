import { Link } from '@tanstack/react-router';
import { seesPlatforms } from '#web/api/role-rights.ts';
import { usePerson } from '#web/api/use-session.ts';

const noPlatform = '-';

/** To the vehicle among all others of its platform, for those who may see them. */
export function AtlasLink({ vehicle, platform }: { vehicle: string; platform: string | null }) {
  const person = usePerson();
  if (person === null || !seesPlatforms(person.role)) return null;
  return (
    <Link to="/platforms/$platform/atlas" params={{ platform: platform ?? noPlatform }} search={{ vehicle }}>
      Among all others of its platform
    </Link>
  );
}
