import { type DecisionTree, type OrderedBranch, type OrderedStep, orderTree } from './order-tree.ts';
import { lineHeight, setLines, type TextPart, type TreeText, tellEnd, wrapParts } from './tree-text.ts';
import { placeWords, sayBranch } from './tree-words.ts';

export interface TreeBox {
  /** unique in a drawing: an end that several results lead to is drawn for each */
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

export interface TreeSize {
  widthPx: number;
  sizePx?: number;
}

/** Widths below this many type sizes have no room for ends beside the steps. */
const WIDE_FROM_SIZES = 44;

const label = (way: OrderedBranch): TextPart => ({
  text: sayBranch(way),
  strong: way.taken,
  soft: !way.taken,
});

/**
 * Places of a decision tree: steps below each other on the left, in the order of the tests; ends to their right, or
 * under them where it is narrow. A way that passes over steps runs in a lane left of all boxes.
 */
export function layoutTree(tree: DecisionTree, { widthPx, sizePx = 13 }: TreeSize): TreeLayout {
  const steps = orderTree(tree);
  const form = widthPx < WIDE_FROM_SIZES * sizePx ? 'narrow' : 'wide';
  const line = lineHeight(sizePx);
  const pad = sizePx * 0.5;
  const gap = sizePx * 0.9;
  const lanes = placeLanes(steps);
  const laneWidth = sizePx * 0.75;
  const left = lanes.count * laneWidth + 1;
  const room = widthPx - left - 1;
  const stepWidth = form === 'narrow' ? room : room * 0.36;
  const trunkX = left + sizePx * 0.8;
  const endX = form === 'narrow' ? left + sizePx * 2.2 : left + room * 0.66;
  const endWidth = widthPx - 1 - endX;
  const labelX = form === 'narrow' ? endX : left + stepWidth + sizePx * 1.9;
  const labelWidth = form === 'narrow' ? endWidth : endX - labelX - sizePx * 0.6;

  const boxes: TreeBox[] = [];
  const lines: TreeLine[] = [];
  const tops = new Map<string, number>();
  const waiting: {
    way: OrderedBranch;
    from: OrderedStep;
    key: string;
    start: [number, number][];
    texts: TreeText[];
  }[] = [];

  const addBox = (
    box: Pick<TreeBox, 'key' | 'node' | 'kind' | 'taken' | 'last' | 'x' | 'y' | 'width'>,
    parts: readonly TextPart[],
  ): number => {
    const wrapped = wrapParts(parts, sizePx, box.width - 2 * pad);
    const height = wrapped.length * line + 2 * pad;
    boxes.push({ ...box, height, texts: setLines(wrapped, box.x + pad, box.y + pad, sizePx) });
    return height;
  };

  const addEnd = (from: OrderedStep, way: OrderedBranch, at: number, y: number): number =>
    addBox(
      {
        key: `${from.node.id} ${at} ${way.to.id}`,
        node: way.to.id,
        kind: 'end',
        taken: way.taken,
        last: way.taken,
        x: endX,
        y,
        width: endWidth,
      },
      tellEnd(way.to, way.taken),
    );

  let y = 1;
  steps.forEach((step, rank) => {
    const { node, place, toEnds, toSteps } = step;
    const top = y;
    tops.set(node.id, top);
    const word = placeWords[place];
    const height = addBox(
      {
        key: node.id,
        node: node.id,
        kind: 'step',
        taken: place !== 'off',
        last: place === 'next',
        x: left,
        y: top,
        width: stepWidth,
      },
      [
        { text: node.title, strong: true, soft: false },
        ...(word === null ? [] : [{ text: word, strong: true, soft: true }]),
      ],
    );
    const bottom = top + height;
    let under = bottom + gap * 0.7;
    let beside = top;

    toEnds.forEach((way, at) => {
      const says = wrapParts([label(way)], sizePx, labelWidth);
      const key = `${node.id} ${at}`;
      if (form === 'narrow') {
        const texts = setLines(says, labelX, under, sizePx);
        const endTop = under + says.length * line + sizePx * 0.25;
        const endHeight = addEnd(step, way, at, endTop);
        const middle = endTop + Math.min(endHeight / 2, line);
        lines.push({
          key,
          taken: way.taken,
          points: [
            [trunkX, bottom],
            [trunkX, middle],
            [endX, middle],
          ],
          texts,
        });
        under = endTop + endHeight + gap * 0.7;
        return;
      }
      const sayHeight = says.length * line;
      const lowest = beside + sayHeight + sizePx * 0.3;
      const ownHeight =
        wrapParts(tellEnd(way.to, way.taken), sizePx, endWidth - 2 * pad).length * line + 2 * pad;
      const endTop = Math.max(beside, lowest - ownHeight / 2);
      const endHeight = addEnd(step, way, at, endTop);
      const middle = Math.max(lowest, endTop + Math.min(endHeight / 2, line));
      const startY = top + Math.min(height / 2, line);
      const busX = left + stepWidth + sizePx * 0.9;
      const texts = setLines(says, labelX, middle - sayHeight - sizePx * 0.15, sizePx);
      lines.push({
        key,
        taken: way.taken,
        points: [
          [left + stepWidth, startY],
          [busX, startY],
          [busX, middle],
          [endX, middle],
        ],
        texts,
      });
      beside = Math.max(endTop + endHeight, middle + sizePx * 0.4) + gap * 0.7;
    });

    const below = steps[rank + 1]?.node.id;
    const ordered = toSteps.toSorted((a, b) => Number(a.to.id === below) - Number(b.to.id === below));
    for (const way of ordered) {
      const texts = setLines(
        wrapParts([label(way)], sizePx, left + stepWidth - trunkX - sizePx * 0.7),
        trunkX + sizePx * 0.7,
        under,
        sizePx,
      );
      const rowY = under + line * 0.55;
      const lane = lanes.of.get(way);
      waiting.push({
        way,
        from: step,
        key: `${node.id} ${way.to.id} ${way.branch.says}`,
        start:
          lane === undefined
            ? [[trunkX, bottom]]
            : [
                [trunkX, bottom],
                [trunkX, rowY],
                [left - (lane + 0.6) * laneWidth, rowY],
              ],
        texts,
      });
      under += texts.length * line + sizePx * 0.35;
    }
    const leftEnd = ordered.length + (form === 'narrow' ? toEnds.length : 0) > 0 ? under : bottom + gap;
    y = Math.max(leftEnd, beside) + gap;
  });

  // Only now is it known how far down each step stands.
  for (const { way, key, start, texts } of waiting) {
    const top = tops.get(way.to.id) ?? 0;
    const entry = top + lineHeight(sizePx) * 0.9;
    const [laneX] = start.at(-1) ?? [0];
    const rest: [number, number][] =
      start.length === 1
        ? [[trunkX, top]]
        : [
            [laneX, entry],
            [left, entry],
          ];
    lines.push({ key, taken: way.taken, points: [...start, ...rest], texts });
  }
  lines.sort((a, b) => Number(a.taken) - Number(b.taken));
  const heightPx = boxes.reduce((most, box) => Math.max(most, box.y + box.height), 0) + 1;
  return { form, widthPx, heightPx, sizePx, boxes, lines };
}

/** Lanes for the ways that pass over steps: two that run side by side have two; those to one step may share one. */
function placeLanes(steps: readonly OrderedStep[]): { count: number; of: Map<OrderedBranch, number> } {
  const rank = new Map(steps.map(({ node }, at) => [node.id, at]));
  const taken: { to: string; until: number }[] = [];
  const of = new Map<OrderedBranch, number>();
  steps.forEach(({ toSteps }, at) => {
    for (const way of toSteps.toSorted((a, b) => (rank.get(a.to.id) ?? 0) - (rank.get(b.to.id) ?? 0))) {
      const until = rank.get(way.to.id) ?? 0;
      if (until === at + 1) continue;
      const shared = taken.findIndex((lane) => lane.to === way.to.id || lane.until < at);
      const lane = shared === -1 ? taken.length : shared;
      taken[lane] = { to: way.to.id, until };
      of.set(way, lane);
    }
  });
  return { count: taken.length, of };
}
