import type { Look } from './look.ts';

/** No more groups than this are drawn: more could not be told apart. */
export const mostDrawnGroups = 6;

const dashes: readonly ('solid' | number[])[] = ['solid', 'solid', [8, 3], [2, 3], [9, 3, 2, 3], [4, 4]];
const symbols = ['circle', 'rect', 'triangle', 'diamond', 'emptyCircle', 'emptyRect'] as const;

/** Groups differ by tone, and by dash of the line and shape of the mark for who does not see tones. */
export const inkOf = (i: number, look: Look) => ({
  tone: look.groups[i % look.groups.length] ?? look.ink,
  dash: dashes[i % dashes.length] ?? 'solid',
  symbol: symbols[i % symbols.length] ?? 'circle',
  width: i % dashes.length === 1 ? 3 : 2,
});

/** The more bands lie over each other, the fainter each. */
export const bandOpacity = (groups: number): number =>
  groups <= 1 ? 0.2 : groups <= 3 ? 0.13 : groups <= 4 ? 0.07 : 0.045;
