import { type Database, rawClient } from '#db/client.ts';

/** All who ever brought a delivery. Goes from one to the next by the index, whatever number of receipts each has. */
export async function listSenderIds(db: Database): Promise<string[]> {
  const rows = await rawClient(db)<{ sender: string }[]>`
    with recursive one as (
      (select sender from receipts where sender is not null order by sender limit 1)
      union all
      select (select r.sender from receipts r where r.sender > one.sender order by r.sender limit 1)
      from one where one.sender is not null)
    select sender from one where sender is not null`;
  return rows.map(({ sender }) => sender);
}
