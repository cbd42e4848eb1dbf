import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';

/** In the address, for the vehicles without a platform. */
const noPlatform = '-';

/** To what all vehicles of this one's platform did together. */
export function PlatformLink({ platform, children }: { platform: string | null; children: ReactNode }) {
  return (
    <Link to="/platforms/$platform" params={{ platform: platform ?? noPlatform }}>
      {children}
    </Link>
  );
}
