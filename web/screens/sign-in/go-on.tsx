import { getRouteApi, useRouter } from '@tanstack/react-router';
import { useEffect } from 'react';
import { usePerson } from '#web/api/use-session.ts';
import { parseSignInSearch } from './sign-in-search.ts';

const route = getRouteApi('/sign-in');

/** Who is signed in has no business at the door: on to what was asked for. */
export function GoOn() {
  const isShop = usePerson()?.role === 'shop';
  const { to = isShop ? '/packets' : '/' } = parseSignInSearch({ ...route.useSearch() });
  const router = useRouter();
  useEffect(() => router.history.replace(to), [router, to]);
  return null;
}
