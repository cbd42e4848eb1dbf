import type { Content, Margins } from 'pdfmake/interfaces.js';
import { cutTree } from '#web/charts/cut-tree.ts';
import { layoutTree, type TreeLayout } from '#web/charts/tree-layout.ts';
import { writeTreeSvg } from '#web/charts/tree-svg.ts';
import { section, soft } from './blocks.ts';
import { mendSvg } from './mend-svg.ts';
import type { Paper } from './paper.ts';
import { paperLook } from './paper-look.ts';

/** From comfortable to the least that is read on paper without effort. */
const TYPE_SIZES_PT = [8.5, 8, 7.5, 7];
/** What stands above and below the drawing. */
const WORDS_PT = 92;
const ASIDE_PT = 28;

/** On as few sheets as it needs, at the largest type that goes with that. */
export function writeTree({ packet, page }: Paper): Content {
  const title = 'Which step leads where';
  if (packet.tree.nodes.length === 0) return section(title, { text: 'No decision tree.' });
  const aside = packet.also_found;
  const roomPt = page.heightPt - WORDS_PT - aside.length * ASIDE_PT;
  const cuts = TYPE_SIZES_PT.map((sizePx) =>
    cutTree(layoutTree(packet.tree, { widthPx: page.widthPt, sizePx }), roomPt),
  );
  const fewest = Math.min(...cuts.map((parts) => parts.length));
  const [first, ...rest] = cuts.find((parts) => parts.length === fewest) ?? [];
  if (first === undefined) return [];
  const draw = (part: TreeLayout): Content => ({
    svg: mendSvg(writeTreeSvg(part, paperLook)),
    width: part.widthPx,
  });
  return section(
    title,
    {
      stack: [
        {
          text: 'The way taken so far is drawn bold and says what was found. It narrows down where to look; it does not replace the maker’s service information.',
          margin: [0, 0, 0, 6],
        },
        ...(aside.length === 0
          ? []
          : [
              {
                text: `Found beside this way: ${aside.map(({ words }) => words).join(' ')}`,
                margin: [0, 0, 0, 6] as Margins,
              },
            ]),
        draw(first),
        ...(rest.length === 0 ? [] : [soft('goes on overleaf: lines that end here go on at the same place')]),
      ],
    },
    ...rest.map((part): Content => ({ stack: [draw(part)], pageBreak: 'before' })),
  );
}
