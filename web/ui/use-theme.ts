import { useEffect } from 'react';
import { createKeptChoice } from './kept-choice.ts';

export const themeChoice = createKeptChoice('slipdrift.theme', ['auto', 'light', 'dark']);

/** Puts the reader's choice on the root element; `auto` leaves it to the system's own setting. */
export function useThemeOnRoot(): void {
  const chosen = themeChoice.use();
  useEffect(() => {
    if (chosen === 'auto') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = chosen;
  }, [chosen]);
}
