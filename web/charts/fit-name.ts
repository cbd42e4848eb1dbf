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

/** On one line where it fits, else on two, broken between words and shortened where it must be. */
export function foldName(name: string, mostPx: number, sizePx: number): string[] {
  if (textWidth(name, sizePx) <= mostPx) return [name];
  const words = name.split(' ');
  const foldings = words
    .slice(1)
    .map((_, i) => [words.slice(0, i + 1).join(' '), words.slice(i + 1).join(' ')]);
  const widest = (lines: readonly string[]) => Math.max(...lines.map((line) => textWidth(line, sizePx)));
  const best = foldings.toSorted((a, b) => widest(a) - widest(b))[0];
  if (best === undefined || widest(best) > mostPx * 1.25) return [fitName(name, mostPx, sizePx)];
  return best.map((line) => fitName(line, mostPx, sizePx));
}
