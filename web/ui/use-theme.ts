import { useEffect } from 'react';
import { createKeptChoice } from './kept-choice.ts';
import { useMedia } from './use-media.ts';

export const themeChoice = createKeptChoice('slipdrift.theme', ['auto', 'light', 'dark']);

/** What is shown now, for parts that cannot read CSS variables by themselves. */
export function useTheme(): 'light' | 'dark' {
  const chosen = themeChoice.use();
  const systemIsDark = useMedia('(prefers-color-scheme: dark)');
  if (chosen === 'auto') return systemIsDark ? 'dark' : 'light';
  return chosen;
}

/** Puts the reader's choice on the root element; `auto` leaves it to the system's own setting. */
export function useThemeOnRoot(): void {
  const chosen = themeChoice.use();
  useEffect(() => {
    if (chosen === 'auto') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = chosen;
  }, [chosen]);
}
