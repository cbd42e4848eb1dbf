import type { CSSProperties } from 'react';
import type { GridDay } from './lay-out-grid.ts';

const narrowPx = 26;
const leastDayPx = 56;
/** How wide days are where they do not all fit and the grid is moved sideways. */
const movedDayPx = 68;
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
  const room = wide === 0 ? movedDayPx : (widthPx - labelPx - narrow * narrowPx) / wide;
  const least = room < leastDayPx ? movedDayPx : leastDayPx;
  const dayPx = Math.max(least, room);
  const density =
    dayPx >= timeFromPx ? 'time' : dayPx >= lineFromPx ? 'line' : dayPx >= stackFromPx ? 'stack' : 'tight';
  const style = {
    '--label': `${labelPx}px`,
    '--tracks': days.map((day) => (day.narrow ? `${narrowPx}px` : `minmax(${least}px, 1fr)`)).join(' '),
    '--sheet': `${labelPx + narrow * narrowPx + wide * least}px`,
  } as CSSProperties;
  return { style, density } as const;
}
