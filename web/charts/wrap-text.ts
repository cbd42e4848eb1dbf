import { textWidth } from './text-width.ts';

/** Breaks a word that no line can hold; whole characters only. */
function breakWord(word: string, sizePx: number, widthPx: number): string[] {
  const pieces: string[] = [];
  let piece = '';
  for (const character of word) {
    if (piece !== '' && textWidth(piece + character, sizePx) > widthPx) {
      pieces.push(piece);
      piece = '';
    }
    piece += character;
  }
  return piece === '' ? pieces : [...pieces, piece];
}

/** Lines no wider than asked for, as far as text can be measured without a browser; no line is empty. */
export function wrapText(text: string, sizePx: number, widthPx: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, sizePx) <= widthPx) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = breakWord(word, sizePx, widthPx);
    line = pieces.pop() ?? '';
    lines.push(...pieces);
  }
  return line === '' ? lines : [...lines, line];
}
