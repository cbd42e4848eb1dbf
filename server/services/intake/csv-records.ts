import { LINE_LIMIT_BYTES } from './line.ts';
import type { TextLine } from './split-lines.ts';

/** An open quote swallows lines; this many at most, so that one stray quote costs no more. */
const RECORD_LIMIT_LINES = 20;
const NEVER_CLOSED = 'opens a quote that is never closed';

/**
 * Joins physical lines into records where a quoted cell holds a newline. Quotes within cells come doubled (RFC 4180),
 * so a cell is open exactly while the count of quotes is odd. Where a quote is never closed, its line alone is refused.
 */
export function createRecordJoiner() {
  let open: TextLine[] = [];

  const add = (line: TextLine, records: TextLine[]): void => {
    const closes = line.fault === null && hasOddQuotes(line.text);
    if (open.length === 0) {
      if (closes) open = [line];
      else records.push(line);
      return;
    }
    open.push(line);
    const text = open.map((part) => part.text).join('\n');
    const fits = line.fault === null && open.length <= RECORD_LIMIT_LINES && text.length <= LINE_LIMIT_BYTES;
    if (!fits) giveUp(records);
    else if (closes) {
      records.push({ line: open[0]?.line ?? line.line, text, fault: null });
      open = [];
    }
  };

  const giveUp = (records: TextLine[]): void => {
    const [first, ...others] = open;
    open = [];
    if (first !== undefined) records.push({ ...first, fault: NEVER_CLOSED });
    for (const line of others) add(line, records);
  };

  return {
    push: (lines: TextLine[]): TextLine[] => {
      const records: TextLine[] = [];
      for (const line of lines) add(line, records);
      return records;
    },
    end: (): TextLine[] => {
      const records: TextLine[] = [];
      while (open.length > 0) giveUp(records);
      return records;
    },
  };
}

function hasOddQuotes(text: string): boolean {
  let odd = false;
  for (let at = text.indexOf('"'); at >= 0; at = text.indexOf('"', at + 1)) odd = !odd;
  return odd;
}
