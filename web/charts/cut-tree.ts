import type { TreeLayout, TreeLine } from './tree-layout.ts';

/** The pieces of a way between two heights: its uprights shortened, its level runs kept where they lie inside. */
function cutWay(way: TreeLine, fromY: number, toY: number): TreeLine[] {
  const pieces: TreeLine[] = [];
  let piece: [number, number][] = [];
  const end = () => {
    if (piece.length > 1)
      pieces.push({ ...way, key: `${way.key} from ${fromY} ${pieces.length}`, points: piece, texts: [] });
    piece = [];
  };
  way.points.slice(1).forEach(([x, y], at) => {
    const [startX, startY] = way.points[at] ?? [x, y];
    const within = (value: number) => Math.min(Math.max(value, fromY), toY);
    const isInside = Math.max(startY, y) >= fromY && Math.min(startY, y) < toY;
    if (!isInside) {
      end();
      return;
    }
    if (piece.length === 0) piece.push([startX, within(startY)]);
    piece.push([x, within(y)]);
    if (within(y) !== y) end();
  });
  end();
  return pieces;
}

/** A drawing in parts of at most a height each, cut above steps, so that no box is cut; ways go on at the cut. */
export function cutTree(layout: TreeLayout, mostHeightPx: number): TreeLayout[] {
  const steps = layout.boxes.filter(({ kind }) => kind === 'step').map(({ y }) => y - layout.sizePx * 0.25);
  const cuts = [0];
  for (const [at, top] of steps.entries()) {
    const next = steps[at + 1] ?? layout.heightPx;
    const last = cuts.at(-1) ?? 0;
    if (next - last > mostHeightPx && top > last) cuts.push(top);
  }
  return cuts.map((fromY, at) => {
    const toY = cuts[at + 1] ?? layout.heightPx;
    const isInside = (y: number) => y >= fromY && y < toY;
    const up = <T extends { y: number }>(one: T): T => ({ ...one, y: one.y - fromY });
    return {
      ...layout,
      heightPx: toY - fromY,
      boxes: layout.boxes
        .filter(({ y }) => isInside(y))
        .map((box) => ({ ...up(box), texts: box.texts.map(up) })),
      lines: layout.lines.flatMap((way) => {
        const texts = way.texts.filter(({ y }) => isInside(y)).map(up);
        const pieces = cutWay(way, fromY, toY).map((piece) => ({
          ...piece,
          points: piece.points.map(([x, y]): [number, number] => [x, y - fromY]),
        }));
        const [first, ...rest] = pieces;
        return first === undefined ? [] : [{ ...first, texts }, ...rest];
      }),
    };
  });
}
