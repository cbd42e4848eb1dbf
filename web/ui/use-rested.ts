import { useEffect, useState } from 'react';

/** A text once it has stayed the same for a while: for what is asked as somebody types. */
export function useRested(text: string, restMs = 400): string {
  const [rested, setRested] = useState(text);
  useEffect(() => {
    if (text === rested) return;
    const timer = setTimeout(() => setRested(text), restMs);
    return () => clearTimeout(timer);
  }, [text, rested, restMs]);
  return rested;
}
