/**
 * Width of a line of text, a little too wide rather than too narrow: labels are placed without a browser to
 * measure them. Share of the type size per character, measured on Atkinson Hyperlegible Next.
 */
const shareOf = (character: string): number => {
  if (/[\s.,:;·'ijl|()]/.test(character)) return 0.32;
  if (/[mwMW%@]/.test(character)) return 0.88;
  if (/[A-Z]/.test(character)) return 0.68;
  return 0.57;
};

export const textWidth = (text: string, sizePx: number): number =>
  [...text].reduce((sum, character) => sum + shareOf(character), 0) * sizePx;
