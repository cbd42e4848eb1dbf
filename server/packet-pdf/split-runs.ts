import { MORE_FONT, PLAIN_FONT, readCoverage } from './paper-fonts.ts';

export interface FontRun {
  text: string;
  font: typeof PLAIN_FONT | typeof MORE_FONT;
}

/** Signs that the fonts lack and that a reader takes as well in letters. */
const inLetters: Readonly<Record<string, string>> = {
  '→': '->',
  '←': '<-',
  '≥': '>=',
  '≤': '<=',
  '≈': '~',
  '≠': '<>',
  Ω: 'ohm',
  µ: 'u',
  μ: 'u',
  '‑': '-',
  '\u202f': '\u00a0',
  '\u2007': '\u00a0',
  '\t': ' ',
};

/** Nothing to see: joiners, marks of direction, soft hyphens, control characters. */
const unseen = /\p{Cc}|\p{Cf}|\p{Variation_Selector}/gu;
const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/**
 * Text as runs that each have a face. What neither face has becomes one question mark, as the reader would count it: a
 * letter of another script or a picture of several code points never vanishes and never stops the page.
 */
export function splitRuns(text: string): FontRun[] {
  const { plain, more } = readCoverage();
  const runs: FontRun[] = [];
  const add = (part: string, font: FontRun['font']) => {
    const last = runs.at(-1);
    if (last?.font === font) last.text += part;
    else runs.push({ text: part, font });
  };
  const has = (face: ReadonlySet<number>, part: string) =>
    [...part].every((character) => face.has(character.codePointAt(0) ?? 0));
  for (const { segment } of graphemes.segment(text.normalize('NFC').replaceAll('\r\n', '\n'))) {
    const seen = segment === '\n' ? segment : (inLetters[segment] ?? segment).replaceAll(unseen, '');
    if (seen === '') continue;
    if (seen === '\n' || has(plain, seen)) add(seen, PLAIN_FONT);
    else if (has(more, seen)) add(seen, MORE_FONT);
    else add('?', PLAIN_FONT);
  }
  return runs;
}
