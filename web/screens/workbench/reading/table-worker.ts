import { decodeText } from './decode-text.ts';
import { sayEventWords } from './event-words.ts';
import { guessChoice, listFigureColumns } from './guess-choice.ts';
import type { Preview, ReaderReply, ReaderRequest, ReadRequest, TakenRows, TakeRequest } from './messages.ts';
import { readTable } from './read-table.ts';
import { type Table, TableFault } from './table.ts';
import { takeRows } from './take-rows.ts';

const shownRows = 6;
/** As the contract has it: what is longer is not kept. */
const mostKeptCharacters = 4_000_000;

let table: Table | null = null;

async function read({ source, kind, hasHeader, decimal }: ReadRequest): Promise<Preview> {
  table = null;
  const text = 'file' in source ? decodeText(await source.file.arrayBuffer()) : source.text;
  table = readTable(text, { hasHeader, decimal });
  return {
    columns: table.columns,
    figureColumns: listFigureColumns(table),
    separator: table.separator,
    hasHeader: table.hasHeader,
    decimal: table.decimal,
    rows: table.rows.length,
    first: table.rows.slice(0, shownRows).map(({ cells }) => cells),
    guess: guessChoice(table, kind),
    text: text.length <= mostKeptCharacters ? text : null,
    characters: text.length,
  };
}

function take({ choice }: TakeRequest): TakenRows {
  if (table === null) throw new TableFault('There is no table. Paste one, or choose a file.');
  const at = table.columns.indexOf(choice.columns.event ?? '');
  const cells = choice.kind === 'lives' && at >= 0 ? table.rows.map((row) => row.cells[at] ?? '') : null;
  return {
    taken: takeRows(table, choice),
    eventWords: cells && sayEventWords(cells, choice.event_turned),
  };
}

self.onmessage = async ({ data }: MessageEvent<ReaderRequest>) => {
  const answer = (reply: ReaderReply) => self.postMessage(reply);
  const { id } = data;
  try {
    if (data.does === 'read') answer({ id, preview: await read(data) });
    else answer({ id, rows: take(data) });
  } catch (error) {
    const fault =
      error instanceof TableFault
        ? error.message
        : 'The table could not be read, and nothing was lost. The browser may be short of memory: take fewer rows.';
    answer({ id, fault });
  }
};
