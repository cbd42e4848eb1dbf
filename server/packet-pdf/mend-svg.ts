import { MORE_FONT, measureLine } from './paper-fonts.ts';
import { splitRuns } from './split-runs.ts';

const entities: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  '#39': "'",
  apos: "'",
};

const readMarkup = (text: string): string =>
  text.replaceAll(/&(amp|lt|gt|quot|#39|apos);/g, (whole, name: string) => entities[name] ?? whole);

export const escapeMarkup = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const dressWords = (words: string): string =>
  splitRuns(readMarkup(words))
    .map(({ text, font }) =>
      font === MORE_FONT
        ? `<tspan font-family="${MORE_FONT}">${escapeMarkup(text)}</tspan>`
        : escapeMarkup(text),
    )
    .join('');

const readAttribute = (attributes: string, name: string): string | null =>
  new RegExp(`(?:^|\\s)${name}="([^"]*)"`).exec(attributes)?.[1] ?? null;

/** The rim of a label as a strip behind it; empty where it has none. */
function drawRim(attributes: string, words: string): string {
  const colour = readAttribute(attributes, 'stroke');
  const size = Number(/font-size:\s*([\d.]+)px/.exec(attributes)?.[1]);
  if (colour === null || colour === 'none' || !(size > 0)) return '';
  const width = measureLine(readMarkup(words), size, /font-weight:\s*(600|bold)/.test(attributes));
  const share = { start: 0, middle: 0.5, end: 1 }[readAttribute(attributes, 'text-anchor') ?? 'start'] ?? 0;
  const x = Number(readAttribute(attributes, 'x') ?? 0) - share * width;
  const y = Number(readAttribute(attributes, 'y') ?? 0) - size / 2;
  const transform = readAttribute(attributes, 'transform');
  return (
    `<rect x="${x - 1}" y="${y}" width="${width + 2}" height="${size}" fill="${colour}" fill-opacity="0.8"` +
    `${transform === null ? '' : ` transform="${transform}"`}/>`
  );
}

/**
 * SVG text as the page can draw it. The writer of the page knows no `paint-order`, so that the rim of a label would lie
 * on its letters: it becomes a strip behind them. It knows bold but not 600, and would read style sheets that are for a
 * pointer.
 */
export const mendSvg = (svg: string): string =>
  svg
    .replaceAll(/<style\b[\s\S]*?<\/style>/g, '')
    .replaceAll(/<text\b([^>]*)>([^<]*)<\/text>/g, (_, attributes: string, words: string) => {
      const mended = attributes
        .replaceAll(/ (stroke|stroke-width|paint-order|stroke-linejoin|stroke-miterlimit)="[^"]*"/g, '')
        .replaceAll(/font-weight:\s*600/g, 'font-weight:bold')
        .replaceAll('font-weight="600"', 'font-weight="bold"');
      return `${drawRim(attributes, words)}<text${mended}>${dressWords(words)}</text>`;
    });
