import type { Look } from './look.ts';
import type { TreeLayout } from './tree-layout.ts';
import type { TreeText } from './tree-text.ts';

const escapeMarkup = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const figure = (value: number): string => String(Math.round(value * 100) / 100);

/** The drawing of a decision tree as SVG text, for paper. */
export function writeTreeSvg({ widthPx, heightPx, boxes, lines }: TreeLayout, look: Look): string {
  const say = ({ x, y, sizePx, text, strong, soft }: TreeText) =>
    `<text x="${figure(x)}" y="${figure(y)}" font-size="${sizePx}" font-family="${escapeMarkup(look.fontFamily)}"` +
    `${strong ? ' font-weight="bold"' : ''} fill="${soft ? look.inkSoft : look.ink}">${escapeMarkup(text)}</text>`;
  const ways = lines.flatMap(({ points, taken, texts }) => [
    `<path d="M${points.map((point) => point.map(figure).join(' ')).join('L')}" fill="none"` +
      ` stroke="${taken ? look.ink : look.hairlineStrong}" stroke-width="${taken ? 2 : 0.6}"/>`,
    ...texts.map(say),
  ]);
  const frames = boxes.flatMap(({ x, y, width, height, kind, taken, last, texts }) => [
    `<rect x="${figure(x)}" y="${figure(y)}" width="${figure(width)}" height="${figure(height)}"` +
      ` rx="${kind === 'end' ? 0 : 3}" fill="${last ? look.paperSunk : look.paper}"` +
      ` stroke="${taken ? look.ink : look.hairlineStrong}" stroke-width="${taken ? 1.8 : 0.6}"/>`,
    ...texts.map(say),
  ]);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${figure(widthPx)}" height="${figure(heightPx)}"` +
    ` viewBox="0 0 ${figure(widthPx)} ${figure(heightPx)}">${ways.join('')}${frames.join('')}</svg>`
  );
}
