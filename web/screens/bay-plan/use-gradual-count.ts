import { startTransition, useEffect, useState } from 'react';

const atOnce = 3;

/** How many of a long list are drawn: some at once, the rest one after the other as soon as there is time. */
export function useGradualCount(total: number): number {
  const [count, setCount] = useState(atOnce);
  useEffect(() => {
    if (count >= total) return;
    const timer = setTimeout(() => startTransition(() => setCount(count + 1)));
    return () => clearTimeout(timer);
  }, [count, total]);
  return Math.min(count, total);
}
