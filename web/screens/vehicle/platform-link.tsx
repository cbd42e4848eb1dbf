import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { seesPlatforms } from '#web/api/role-rights.ts';
import { usePerson } from '#web/api/use-session.ts';

/** In the address, for the vehicles without a platform. */
const noPlatform = '-';

/** To what all vehicles of this one's platform did together, for those who may see it. */
export function PlatformLink({ platform, children }: { platform: string | null; children: ReactNode }) {
  const person = usePerson();
  if (person === null || !seesPlatforms(person.role)) return null;
  return (
    <Link to="/platforms/$platform" params={{ platform: platform ?? noPlatform }}>
      {children}
    </Link>
  );
}
