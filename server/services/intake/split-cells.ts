/**
 * The cells of one CSV record (RFC 4180: commas, quotes around a cell, doubled quotes within one), or null where the
 * quotes do not pair. Own code, because the reader must go on after a broken record and say which line it was; csv-parse
 * run record by record costs 66 us a record, this 0.4. The tests hold the two against each other.
 */
export function splitCells(text: string): string[] | null {
  if (!text.includes('"')) return text.split(',');
  const cells: string[] = [];
  for (let from = 0; ; ) {
    const cell = text[from] === '"' ? readQuoted(text, from + 1) : readPlain(text, from);
    if (cell === null) return null;
    cells.push(cell.text);
    if (cell.end === text.length) return cells;
    from = cell.end + 1;
  }
}

interface Cell {
  text: string;
  /** place of the comma, or of the end */
  end: number;
}

function readPlain(text: string, from: number): Cell | null {
  const comma = text.indexOf(',', from);
  const end = comma < 0 ? text.length : comma;
  const cell = text.slice(from, end);
  return cell.includes('"') ? null : { text: cell, end };
}

function readQuoted(text: string, start: number): Cell | null {
  let cell = '';
  for (let from = start; ; ) {
    const quote = text.indexOf('"', from);
    if (quote < 0) return null;
    cell += text.slice(from, quote);
    const next = text[quote + 1];
    if (next === undefined || next === ',') return { text: cell, end: quote + 1 };
    if (next !== '"') return null;
    cell += '"';
    from = quote + 2;
  }
}
