import { type ReactNode, useState } from 'react';
import { Button } from '#web/ui/button.tsx';

const shownAtFirst = 12;

/** The first of many rows, and a button for the rest where there are more. */
export function useShortened<T>(rows: readonly T[]): { shown: readonly T[]; more: ReactNode } {
  const [isWhole, setIsWhole] = useState(false);
  if (isWhole || rows.length <= shownAtFirst) return { shown: rows, more: null };
  return {
    shown: rows.slice(0, shownAtFirst),
    more: (
      <p>
        <Button onClick={() => setIsWhole(true)}>Show all {rows.length}</Button>
      </p>
    ),
  };
}
