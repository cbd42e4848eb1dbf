import { type Database, rawClient } from '#db/client.ts';

export interface Settling {
  from: readonly ('open' | 'laid_aside')[];
  state: 'open' | 'let_in' | 'laid_aside';
  at: Date;
  by: string;
  receipt: string | null;
}

/**
 * Gives lines that are in a state another one, and answers which of them were in it. Within a transaction: they are
 * locked by their number first, so that two who settle the same lines wait for each other and never in a circle.
 */
export async function settleLines(
  transaction: Database,
  ids: readonly number[],
  { from, state, at, by, receipt }: Settling,
): Promise<number[]> {
  const list = JSON.stringify(ids);
  const states = JSON.stringify(from);
  const rows = await rawClient(transaction)<{ id: number }[]>`
    with held as (
      select id from refused_lines
      where id in (select jsonb_array_elements(${list}::text::jsonb)::bigint)
        and state in (select jsonb_array_elements_text(${states}::text::jsonb))
      order by id for update)
    update refused_lines l set state = ${state},
      settled_at = ${state === 'open' ? null : at}, settled_by = ${state === 'open' ? null : by},
      let_in_receipt = ${receipt}
    from held where l.id = held.id
    returning l.id`;
  return rows.map(({ id }) => id);
}
