import type { TreeNode } from '#server/contract/test-steps.ts';
import { againWords, endWord, sayWork } from './tree-words.ts';
import { wrapText } from './wrap-text.ts';

export interface TextPart {
  text: string;
  strong: boolean;
  soft: boolean;
}

/** One line of text, with the left end of its baseline. */
export interface TreeText extends TextPart {
  x: number;
  y: number;
  sizePx: number;
}

/** Weight 600 runs wider than the plain weight that widths were measured on. */
const STRONG_SHARE = 1.06;

export const lineHeight = (sizePx: number): number => sizePx * 1.3;

export function wrapParts(parts: readonly TextPart[], sizePx: number, widthPx: number): TextPart[] {
  return parts.flatMap((part) =>
    wrapText(part.text, part.strong ? sizePx * STRONG_SHARE : sizePx, widthPx).map((text) => ({
      ...part,
      text,
    })),
  );
}

/** Sets lines under each other from the top of a place on. */
export const setLines = (parts: readonly TextPart[], x: number, top: number, sizePx: number): TreeText[] =>
  parts.map((part, at) => ({ ...part, x, y: top + at * lineHeight(sizePx) + sizePx, sizePx }));

/** Where a way ends its box says what the findings are consistent with; other ends say where the work would be. */
export function tellEnds({ title, end }: TreeNode, taken: boolean, isAgain: boolean): TextPart[] {
  if (end === null) return [];
  if (isAgain) return [{ text: againWords, strong: false, soft: true }];
  const work = sayWork(end);
  if (!taken) return [{ text: `${title} (${work})`, strong: false, soft: false }];
  return [
    { text: endWord, strong: true, soft: true },
    { text: title, strong: true, soft: false },
    ...(end.words === title ? [] : [{ text: end.words, strong: false, soft: false }]),
    { text: work, strong: false, soft: true },
  ];
}
