import { getRouteApi, useRouter } from '@tanstack/react-router';
import { useEffect } from 'react';

const route = getRouteApi('/sign-in');

/** Who is signed in has no business at the door: on to what was asked for. */
export function GoOn() {
  const { to = '/' } = route.useSearch();
  const router = useRouter();
  useEffect(() => router.history.replace(to), [router, to]);
  return null;
}
