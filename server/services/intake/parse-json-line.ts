import { badLine, goodLine, type Line } from './line.ts';

/** What JSON has no word for, but programs write all the same. */
const NOT_A_NUMBER = /"([^"\\]{1,64})"\s*:\s*([+-]?(?:NaN|Inf(?:inity)?))\b/i;

/** One JSON text as a line; a broken one is refused with its place, and with the field where that can be told. */
export function parseJsonLine(line: number, raw: string): Line {
  try {
    return goodLine(line, raw, JSON.parse(raw));
  } catch (error) {
    const bare = NOT_A_NUMBER.exec(raw);
    if (bare !== null) return badLine(line, raw, `must be a number, not ${bare[2]}`, bare[1]);
    return badLine(line, raw, `is not JSON: ${describe(error, raw)}`);
  }
}

/** The message of the JavaScript engine without its excerpt: the line itself is kept. */
function describe(error: unknown, raw: string): string {
  const message = error instanceof Error ? error.message : '';
  const position = /at position (\d+)/.exec(message)?.[1];
  if (/^Unexpected end|^Unterminated/.test(message) || Number(position) >= raw.length)
    return 'it ends too early';
  const what = message.replace(/,? (?:in|after) JSON at position.*$|, (?:\.\.\.)?".*$/s, '');
  const text = what.charAt(0).toLowerCase() + what.slice(1);
  return position === undefined ? text : `${text} at character ${Number(position) + 1}`;
}
