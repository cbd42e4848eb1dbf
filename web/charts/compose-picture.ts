import { type LegendEntry, layLegend, shapeMark } from './legend.ts';
import type { Look } from './look.ts';
import { wrapText } from './wrap-text.ts';

const edgePx = 20;
const titlePx = 18;
const gapPx = 10;

export interface Picture {
  /** the drawing as SVG, of the size below */
  drawing: string;
  widthPx: number;
  heightPx: number;
  title: string;
  /** how it is read, a paragraph each */
  reading: readonly string[];
  /** what its marks mean, where they are not named in the drawing */
  legend: readonly LegendEntry[];
  /** where it is from, of what day, and of what choice, a line each */
  source: readonly string[];
  /** for those who do not see it */
  label: string;
  /** `@font-face` rules with the files in them */
  fontFaces: string;
  look: Look;
}

interface Line {
  text: string;
  sizePx: number;
  color: string;
  strong?: boolean;
}

/** A drawing with its title, how to read it and its source, as one SVG file that needs nothing beside it. */
export function composePicture(picture: Picture): { svg: string; widthPx: number; heightPx: number } {
  const { look, widthPx } = picture;
  const wrap = (text: string, line: Omit<Line, 'text'>): Line[] =>
    wrapText(text, line.sizePx, widthPx).map((one) => ({ ...line, text: one }));
  const soft = { sizePx: look.smallPx, color: look.inkSoft };
  const head = stack(
    [
      ...wrap(picture.title, { sizePx: titlePx, color: look.ink, strong: true }),
      ...picture.reading.flatMap((text) => wrap(text, soft)),
    ],
    edgePx,
  );
  const legend = drawLegend(picture, head.endPx);
  const drawingTop = legend.endPx + (legend.endPx > edgePx ? gapPx : 0);
  const footTop = drawingTop + picture.heightPx + gapPx;
  const foot = stack(
    picture.source.flatMap((text) => wrap(text, soft)),
    footTop,
  );
  const whole = { widthPx: widthPx + 2 * edgePx, heightPx: Math.ceil(foot.endPx + edgePx) };
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="${whole.widthPx}" height="${whole.heightPx}" viewBox="0 0 ${whole.widthPx} ${whole.heightPx}" role="img">
<title>${escapeXml(picture.title)}</title>
<desc>${escapeXml(picture.label)}</desc>
<style>${picture.fontFaces}</style>
<rect width="100%" height="100%" fill="${escapeXml(look.paper)}"/>
<g font-family="${escapeXml(look.fontFamily)}">
${[...head.lines, ...legend.lines, ...foot.lines].join('\n')}
</g>
<g transform="translate(${edgePx} ${drawingTop})">${picture.drawing}</g>
</svg>
`;
  return { svg, ...whole };
}

/** Lines of text below each other, and where they end. */
function stack(lines: readonly Line[], topPx: number): { lines: string[]; endPx: number } {
  let y = topPx;
  const drawn = lines.map(({ text, sizePx, color, strong }) => {
    y += sizePx * 1.35;
    const baseline = y - sizePx * 0.35;
    return `<text x="${edgePx}" y="${baseline.toFixed(1)}" font-size="${sizePx}" font-weight="${strong === true ? 600 : 400}" fill="${escapeXml(color)}">${escapeXml(text)}</text>`;
  });
  return { lines: drawn, endPx: y };
}

const legendLinePx = 20;

function drawLegend({ legend, look, widthPx }: Picture, topPx: number): { lines: string[]; endPx: number } {
  const placed = layLegend(legend, look.smallPx, widthPx);
  const lines = placed.map(({ marks, marksPx, words, wordsPx, line }) => {
    const middle = topPx + gapPx / 2 + (line + 0.5) * legendLinePx;
    const shapes = marks.map((mark, i) => {
      const { strokeWidth, ...shape } = {
        strokeWidth: 0,
        ...shapeMark(mark, edgePx + (marksPx[i] ?? 0), middle),
      };
      const written = Object.entries(shape).map(([name, value]) => `${name}="${escapeXml(String(value))}"`);
      return `<rect ${written.join(' ')} stroke-width="${strokeWidth}"/>`;
    });
    const text = `<text x="${edgePx + wordsPx}" y="${(middle + look.smallPx * 0.35).toFixed(1)}" font-size="${look.smallPx}" fill="${escapeXml(look.inkSoft)}">${escapeXml(words)}</text>`;
    return [...shapes, text].join('');
  });
  const last = placed.at(-1);
  return { lines, endPx: last === undefined ? topPx : topPx + gapPx / 2 + (last.line + 1) * legendLinePx };
}

/** Characters that XML has no place for are left out. */
const escapeXml = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones
    .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
