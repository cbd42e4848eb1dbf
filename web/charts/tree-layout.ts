import { type DecisionTree, type OrderedBranch, type OrderedStep, orderTree } from './order-tree.ts';
import { type EndRow, rowEnds } from './tree-ends.ts';
import { placeLanes } from './tree-lanes.ts';
import { measureTree, type TreeSize } from './tree-measures.ts';
import { setLines, type TextPart, type TreeText, tellEnds, wrapParts } from './tree-text.ts';
import { placeWords, sayBranch } from './tree-words.ts';

export interface TreeBox {
  /** unique in a drawing: an end that several results lead to may be drawn more than once */
  key: string;
  node: string;
  kind: 'step' | 'end';
  taken: boolean;
  /** the step to do, or the end that the findings lead to */
  last: boolean;
  x: number;
  y: number;
  width: number;
  height: number;
  texts: TreeText[];
}

/** A way from a step to a step or an end, along right angles; what was found is said beside it. */
export interface TreeLine {
  key: string;
  taken: boolean;
  points: [number, number][];
  texts: TreeText[];
}

export interface TreeLayout {
  form: 'narrow' | 'wide';
  widthPx: number;
  heightPx: number;
  sizePx: number;
  boxes: TreeBox[];
  /** in the order to draw them: those of the path last, so that they lie on top */
  lines: TreeLine[];
}

const labelOf = (ways: readonly OrderedBranch[]): TextPart => {
  const taken = ways.some((way) => way.taken);
  return { text: ways.map(sayBranch).join('; '), strong: taken, soft: !taken };
};

/**
 * Places of a decision tree: steps below each other on the left, in the order of the tests; ends to their right, or
 * under them where it is narrow. A way that passes over steps runs in a lane left of all boxes.
 */
export function layoutTree(tree: DecisionTree, size: TreeSize): TreeLayout {
  const steps = orderTree(tree);
  const lanes = placeLanes(steps);
  const rows = rowEnds(steps);
  const measures = measureTree(size, lanes.count);
  const { form, widthPx, sizePx, line, pad, gap, endGap, left, stepWidth, trunkX, endX, endWidth } = measures;
  const isNarrow = form === 'narrow';
  const boxes: TreeBox[] = [];
  const lines: TreeLine[] = [];
  const tops = new Map<string, number>();
  /** ways to steps: how far down those stand is known at the end */
  const waiting: { to: string; line: TreeLine }[] = [];

  const addBox = (box: Omit<TreeBox, 'height' | 'texts'>, wrapped: readonly TextPart[]): number => {
    const height = wrapped.length * line + 2 * pad;
    boxes.push({ ...box, height, texts: setLines(wrapped, box.x + pad, box.y + pad, sizePx) });
    return box.y + height;
  };

  const addStep = ({ node, place }: OrderedStep, y: number): number => {
    const word = placeWords[place];
    const parts = [
      { text: node.title, strong: true, soft: false },
      ...(word === null ? [] : [{ text: word, strong: true, soft: true }]),
    ];
    const [taken, last] = [place !== 'off', place === 'next'];
    return addBox(
      { key: node.id, node: node.id, kind: 'step', taken, last, x: left, y, width: stepWidth },
      wrapParts(parts, sizePx, stepWidth - 2 * pad),
    );
  };

  /** One row of ends from `from` on; answers where it ends, and draws its way from `start`. */
  const addEnd = (step: OrderedStep, row: EndRow, at: number, from: number, start: [number, number][]) => {
    const { ways, isAgain } = row;
    const [way] = ways;
    const says = wrapParts([labelOf(ways)], sizePx, measures.labelWidth);
    const tells = wrapParts(tellEnds(way.to, way.taken, isAgain), sizePx, endWidth - 2 * pad);
    const sayHeight = says.length * line;
    const height = tells.length * line + 2 * pad;
    const under = from + sayHeight + sizePx * 0.3;
    const y = isNarrow ? under : Math.max(from, under - height / 2);
    const entry = isNarrow ? y + Math.min(height / 2, line) : Math.max(under, y + Math.min(height / 2, line));
    const texts = setLines(
      says,
      measures.labelX,
      isNarrow ? from : entry - sayHeight - sizePx * 0.15,
      sizePx,
    );
    const key = `${step.node.id} end ${at}`;
    const end = addBox(
      { key, node: way.to.id, kind: 'end', taken: way.taken, last: way.taken, x: endX, y, width: endWidth },
      tells,
    );
    const turnX = start.at(-1)?.[0] ?? endX;
    lines.push({ key, taken: way.taken, points: [...start, [turnX, entry], [endX, entry]], texts });
    return Math.max(end, entry + sizePx * 0.4) + endGap;
  };

  const addWay = (step: OrderedStep, way: OrderedBranch, bottom: number, from: number): number => {
    const textX = trunkX + sizePx * 0.7;
    const says = wrapParts([labelOf([way])], sizePx, left + stepWidth - textX);
    const lane = lanes.of.get(way);
    const start: [number, number][] = [[trunkX, bottom]];
    if (lane !== undefined) {
      const y = from + line * 0.55;
      start.push([trunkX, y], [measures.laneX(lane), y]);
    }
    const key = `${step.node.id} to ${way.to.id} ${way.branch.results.join(' ')}`;
    waiting.push({
      to: way.to.id,
      line: { key, taken: way.taken, points: start, texts: setLines(says, textX, from, sizePx) },
    });
    return from + says.length * line + sizePx * 0.3;
  };

  let y = 1;
  steps.forEach((step, rank) => {
    const top = y;
    tops.set(step.node.id, top);
    const bottom = addStep(step, top);
    let under = bottom + gap * 0.5;
    let beside = top;
    const out = top + Math.min((bottom - top) / 2, line);
    (rows.get(step) ?? []).forEach((row, at) => {
      if (isNarrow) under = addEnd(step, row, at, under, [[trunkX, bottom]]);
      else
        beside = addEnd(step, row, at, beside, [
          [left + stepWidth, out],
          [measures.busX, out],
        ]);
    });
    const next = steps[rank + 1]?.node.id;
    const isNext = (way: OrderedBranch) => Number(way.to.id === next);
    for (const way of step.toSteps.toSorted((a, b) => isNext(a) - isNext(b)))
      under = addWay(step, way, bottom, under);
    y = Math.max(under, beside) + gap * 0.7;
  });

  for (const { to, line: way } of waiting) {
    const top = tops.get(to) ?? 0;
    const [laneX] = way.points.at(-1) ?? [0];
    if (way.points.length === 1) way.points.push([trunkX, top]);
    else way.points.push([laneX, top + line * 0.9], [left, top + line * 0.9]);
    lines.push(way);
  }
  lines.sort((a, b) => Number(a.taken) - Number(b.taken));
  const heightPx = boxes.reduce((most, box) => Math.max(most, box.y + box.height), 0) + 1;
  return { form, widthPx, heightPx, sizePx, boxes, lines };
}
