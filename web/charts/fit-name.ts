import { textWidth } from './text-width.ts';

/** A name may be long: its end tells vehicles of a fleet apart, so its middle is left out. */
export function fitName(name: string, mostPx: number, sizePx: number): string {
  if (textWidth(name, sizePx) <= mostPx) return name;
  for (let kept = Math.floor(name.length / 2) - 1; kept > 1; kept--) {
    const short = `${name.slice(0, kept)}…${name.slice(-kept)}`;
    if (textWidth(short, sizePx) <= mostPx) return short;
  }
  return `${name.slice(0, 2)}…${name.slice(-2)}`;
}
