import type { CSSProperties } from 'react';
import type { GridDay } from './lay-out-grid.ts';

const narrowPx = 26;
const leastDayPx = 56;
/** From here on a card has its unit and its hours in one line; and from there on the time of day as well. */
const lineFromPx = 104;
const timeFromPx = 172;
/** Below this, hours lose their unit. */
const stackFromPx = 78;

/** How wide the columns are and what a card has room for. */
export function measureGrid(days: readonly GridDay[], widthPx: number) {
  const labelPx = widthPx >= 1400 ? 168 : widthPx >= 1000 ? 128 : 108;
  const narrow = days.filter((day) => day.narrow).length;
  const wide = days.length - narrow;
  const dayPx = wide === 0 ? 0 : Math.max(leastDayPx, (widthPx - labelPx - narrow * narrowPx) / wide);
  const density =
    dayPx >= timeFromPx ? 'time' : dayPx >= lineFromPx ? 'line' : dayPx >= stackFromPx ? 'stack' : 'tight';
  const style = {
    '--label': `${labelPx}px`,
    '--tracks': days.map((day) => (day.narrow ? `${narrowPx}px` : `minmax(${leastDayPx}px, 1fr)`)).join(' '),
    '--sheet': `${labelPx + narrow * narrowPx + wide * leastDayPx}px`,
  } as CSSProperties;
  return { style, density } as const;
}
