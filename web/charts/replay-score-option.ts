import type { RuleScore } from '#server/contract/replay.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import { label, rect, type Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';

const rowPx = 62;
const headPx = 22;
const barPx = 16;
const betweenPx = 28;

export const scoreHeight = (rules: number): number => headPx + rules * rowPx;

interface Asked {
  scores: readonly RuleScore[];
  failures: number;
  /** what each rule is called */
  nameOf: (score: RuleScore) => string;
}

/** For each rule on one scale: of what came, how much it found; of what it asked for, how much was needless. */
export function scoreOption({ scores, failures, nameOf }: Asked, { widthPx, look }: Frame): ChartOption {
  const half = (widthPx - betweenPx) / 2;
  const mostAsked = Math.max(1, ...scores.map((one) => one.asked));
  const elements: Shape[] = [
    label('came-title', { text: 'of what came', x: 0, y: 10, color: look.inkSoft }, look),
    label(
      'asked-title',
      { text: 'of what was asked for', x: half + betweenPx, y: 10, color: look.inkSoft },
      look,
    ),
    ...scores.flatMap((score, i) => {
      const top = headPx + i * rowPx;
      const at = { top, left: 0, widthPx: half, look };
      const isList = score.rule === 'list';
      return [
        label(
          `${score.rule}-name`,
          { text: nameOf(score), x: 0, y: top + 12, color: look.ink, strong: isList },
          look,
        ),
        ...drawBar(`${score.rule}-came`, at, Math.max(1, failures), [
          {
            n: score.found,
            tone: isList ? look.ink : look.inkSoft,
            text: `${formatWhole(score.found)} found`,
          },
          { n: score.missed, tone: null, text: `${formatWhole(score.missed)} missed` },
        ]),
        ...drawBar(`${score.rule}-asked`, { ...at, left: half + betweenPx }, mostAsked, [
          {
            n: score.right,
            tone: isList ? look.ink : look.inkSoft,
            text: `${formatWhole(score.asked)} asked`,
          },
          { n: score.early, tone: look.inkFaint, text: '' },
          { n: score.undecided, tone: look.hairline, text: '' },
          { n: score.needless, tone: null, text: `${formatWhole(score.needless)} needless` },
        ]),
      ];
    }),
  ];
  return { graphic: { elements } };
}

interface Part {
  n: number;
  /** null: hollow */
  tone: string | null;
  text: string;
}

/** A bar of parts end to end, its first words below its left end and its last below its right end. */
function drawBar(
  id: string,
  { top, left, widthPx, look }: { top: number; left: number; widthPx: number; look: Look },
  most: number,
  parts: readonly Part[],
): Shape[] {
  const toPx = (n: number) => (n / most) * widthPx;
  let from = left;
  const bars = parts.flatMap((part, i) => {
    const width = toPx(part.n);
    const x = from;
    from += width;
    if (part.n === 0) return [];
    const inset = part.tone === null ? 0.5 : 0;
    const shape = {
      x: x + inset,
      y: top + 22 + inset,
      width: Math.max(1, width - 2 * inset - 1),
      height: barPx - 2 * inset,
    };
    const style = part.tone === null ? { fill: 'none', stroke: look.hairlineStrong } : { fill: part.tone };
    return [rect(`${id}-${i}`, 'band', shape, style)];
  });
  const [first, last] = [parts[0]?.text ?? '', parts.at(-1)?.text ?? ''];
  const y = top + 22 + barPx + 10;
  const right = Math.max(from, left + textWidth(`${first}  ${last}`, look.smallPx) + 8);
  return [
    ...bars,
    label(`${id}-first`, { text: first, x: left, y, color: look.ink }, look),
    label(
      `${id}-last`,
      { text: last, x: Math.min(right, left + widthPx), y, color: look.inkSoft, align: 'right' },
      look,
    ),
  ];
}
