import { lineHeight } from './tree-text.ts';

export interface TreeSize {
  widthPx: number;
  sizePx?: number;
}

/** Widths below this many type sizes have no room for ends beside the steps. */
const WIDE_FROM_SIZES = 44;

/** Where the columns of a drawing stand; all follows from its width and type size. */
export function measureTree({ widthPx, sizePx = 13 }: TreeSize, laneCount: number) {
  const form: 'narrow' | 'wide' = widthPx < WIDE_FROM_SIZES * sizePx ? 'narrow' : 'wide';
  const laneWidth = sizePx * 0.75;
  const left = laneCount * laneWidth + 1;
  const room = widthPx - left - 1;
  const isNarrow = form === 'narrow';
  const stepWidth = isNarrow ? room : room * 0.33;
  const endX = isNarrow ? left + sizePx * 2.2 : left + room * 0.6;
  const endWidth = widthPx - 1 - endX;
  const labelX = isNarrow ? endX : left + stepWidth + sizePx * 1.7;
  return {
    form,
    widthPx,
    sizePx,
    line: lineHeight(sizePx),
    pad: sizePx * 0.4,
    gap: sizePx * 0.8,
    endGap: sizePx * 0.4,
    left,
    stepWidth,
    trunkX: left + sizePx * 0.8,
    busX: left + stepWidth + sizePx * 0.9,
    endX,
    endWidth,
    labelX,
    labelWidth: isNarrow ? endWidth : endX - labelX - sizePx * 0.6,
    laneX: (lane: number) => left - (lane + 0.6) * laneWidth,
  };
}
