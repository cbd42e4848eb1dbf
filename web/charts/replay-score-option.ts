import type { RuleScore } from '#server/contract/replay.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { LegendEntry, LegendMark } from './legend.ts';
import type { Look } from './look.ts';
import { label, rect, type Shape } from './shapes.ts';

const namePx = 22;
const barPx = 16;
/** name, bar and words below it */
const linePx = 62;
const betweenPx = 28;
/** Below this the two bars of a rule stand under one another. */
const narrowPx = 600;

const isNarrow = (widthPx: number): boolean => widthPx < narrowPx;

export const scoreHeight = (rules: number, widthPx: number): number =>
  rules * linePx * (isNarrow(widthPx) ? 2 : 1);

interface Asked {
  scores: readonly RuleScore[];
  failures: number;
  /** what each rule is called */
  nameOf: (score: RuleScore) => string;
}

/** For each rule on one scale: of what came, how much it found; of what it asked for, what became of it. */
export function scoreOption({ scores, failures, nameOf }: Asked, { widthPx, look }: Frame): ChartOption {
  const narrow = isNarrow(widthPx);
  const barWidth = narrow ? widthPx : (widthPx - betweenPx) / 2;
  const mostAsked = Math.max(1, ...scores.map((one) => one.asked));
  const elements: Shape[] = scores.flatMap((score, i) => {
    const top = i * linePx * (narrow ? 2 : 1);
    const came = { left: 0, top, widthPx: barWidth, look };
    const asked = narrow ? { ...came, top: top + linePx - 6 } : { ...came, left: barWidth + betweenPx };
    const times = score.asked === 1 ? 'once' : `${formatWhole(score.asked)} times`;
    return [
      label(
        `${score.rule}-name`,
        { text: nameOf(score), x: 0, y: top + 12, color: look.ink, strong: score.rule === 'list' },
        look,
      ),
      label(
        `${score.rule}-times`,
        { text: `asked ${times}`, x: asked.left, y: asked.top + 12, color: look.inkSoft },
        look,
      ),
      ...drawBar(`${score.rule}-came`, came, Math.max(1, failures), [
        { name: 'found', n: score.found, tone: look.ink },
        { name: 'missed', n: score.missed, tone: null },
      ]),
      ...drawBar(`${score.rule}-asked`, asked, mostAsked, [
        { name: 'right', n: score.right, tone: look.ink },
        { name: 'early', n: score.early, tone: look.inkFaint },
        { name: 'undecided', n: score.undecided, tone: look.hairlineStrong },
        { name: 'needless', n: score.needless, tone: null },
      ]),
    ];
  });
  return { graphic: { elements } };
}

/** What the tones of the second bar mean, in its order. */
export function scoreLegend(look: Look): LegendEntry[] {
  const mark = (kind: LegendMark['kind'], color: string) => ({ kind, widthPx: 14, heightPx: 12, color });
  return [
    { marks: [mark('fill', look.ink)], words: 'found, right' },
    { marks: [mark('fill', look.inkFaint)], words: 'early' },
    { marks: [mark('fill', look.hairlineStrong)], words: 'undecided' },
    { marks: [mark('outline', look.hairlineStrong)], words: 'missed, needless' },
  ];
}

interface Part {
  name: string;
  n: number;
  /** null: hollow */
  tone: string | null;
}

/** A bar of parts end to end, and below it how many each are, in the same order. */
function drawBar(
  id: string,
  { top, left, widthPx, look }: { top: number; left: number; widthPx: number; look: Look },
  most: number,
  parts: readonly Part[],
): Shape[] {
  let from = left;
  const bars = parts.flatMap((part, i) => {
    const width = (part.n / most) * widthPx;
    const x = from;
    from += width;
    if (part.n === 0) return [];
    const inset = part.tone === null ? 0.5 : 0;
    const shape = {
      x: x + inset,
      y: top + namePx + inset,
      width: Math.max(1, width - 2 * inset - 1),
      height: barPx - 2 * inset,
    };
    const style = part.tone === null ? { fill: 'none', stroke: look.hairlineStrong } : { fill: part.tone };
    return [rect(`${id}-${i}`, 'band', shape, style)];
  });
  const text = parts.map(({ name, n }) => `${formatWhole(n)} ${name}`).join(', ');
  const y = top + namePx + barPx + 10;
  return [...bars, label(`${id}-words`, { text, x: left, y, color: look.ink }, look)];
}
