import type { RawClient } from '#db/client.ts';
import type { NotebookView } from '#db/notebook/view.ts';
import { selectView } from '#db/notebook/write-views.ts';

export interface RowFilter {
  /** none: all */
  platforms: readonly string[];
  depots: readonly string[];
  /** beside those, only vehicles of these depots; null for all */
  seenDepots: readonly string[] | null;
  since: Date | null;
}

export type NotebookRow = Record<string, unknown>;

const AT_ONCE = 2000;

/** The rows of a view in order, some at a time: what nobody has asked for yet stays in the database. */
export function readNotebookRows(
  client: RawClient,
  view: NotebookView,
  filter: RowFilter,
): AsyncIterable<NotebookRow[]> {
  const { text, parameters } = narrowView(view, filter);
  const statement = `${selectView(view)} ${text} order by ${view.order}`;
  return client.unsafe<NotebookRow[]>(statement, parameters).cursor(AT_ONCE);
}

export async function countNotebookRows(
  client: RawClient,
  view: NotebookView,
  filter: RowFilter,
): Promise<number> {
  const { text, parameters } = narrowView(view, filter);
  const [row] = await client.unsafe(`select count(*) as n from ${view.from} ${text}`, parameters);
  return Number(row?.n);
}

function narrowView({ name, narrow }: NotebookView, { platforms, depots, seenDepots, since }: RowFilter) {
  const parameters: (string[] | string)[] = [];
  const conditions: string[] = [];
  const isOneOf = (column: string | undefined, values: readonly string[]) => {
    if (column === undefined) throw new RangeError(`readNotebookRows requires a column to narrow ${name} by`);
    parameters.push([...values]);
    conditions.push(`${column} = any($${parameters.length}::text[])`);
  };
  if (platforms.length > 0) isOneOf(narrow.platform, platforms);
  if (depots.length > 0) isOneOf(narrow.depot, depots);
  if (seenDepots !== null) isOneOf(narrow.depot, seenDepots);
  if (since !== null) {
    if (narrow.since === undefined)
      throw new RangeError(`readNotebookRows requires a time to narrow ${name} by`);
    parameters.push(since.toISOString());
    conditions.push(narrow.since.condition(`$${parameters.length}::timestamptz`));
  }
  return { text: conditions.length === 0 ? '' : `where ${conditions.join(' and ')}`, parameters };
}
