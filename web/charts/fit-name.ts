import { textWidth } from './text-width.ts';

/** A name may be long: its end tells vehicles of a fleet apart, so its middle is left out, behind the first word where it can. */
export function fitName(name: string, mostPx: number, sizePx: number): string {
  if (textWidth(name, sizePx) <= mostPx) return name;
  const first = name.search(/\s/);
  for (let kept = Math.min(first, name.length - first - 1); kept > 2; kept--) {
    const short = `${name.slice(0, first)}…${name.slice(-kept).trimStart()}`;
    if (textWidth(short, sizePx) <= mostPx) return short;
  }
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
  if (best === undefined) return [fitName(name, mostPx, sizePx)];
  if (widest(best) > mostPx * 1.25) return foldEnds(words, mostPx, sizePx);
  return best.map((line) => fitName(line, mostPx, sizePx));
}

/** Two lines are too few: the first words, and the last. */
function foldEnds(words: readonly string[], mostPx: number, sizePx: number): string[] {
  const fits = (line: string) => textWidth(line, sizePx) <= mostPx;
  let head = 1;
  while (head < words.length - 2 && fits(words.slice(0, head + 1).join(' '))) head++;
  let tail = words.length - 1;
  while (tail > head + 1 && fits(`…${words.slice(tail - 1).join(' ')}`)) tail--;
  const last = words.slice(tail).join(' ');
  return [words.slice(0, head).join(' '), tail > head ? `…${last}` : last].map((line) =>
    fitName(line, mostPx, sizePx),
  );
}
