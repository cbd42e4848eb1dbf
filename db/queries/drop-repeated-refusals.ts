import { type Database, rawClient } from '#db/client.ts';

export interface Repeated {
  /** first and last line that have come again */
  from: number;
  to: number;
  /** id of the last line that earlier tries kept */
  earlierTo: number;
  /** messages of lines that the end of a try had cut */
  cutOff: readonly string[];
}

/**
 * A delivery that ended midway has come again: of its refused lines `from` to `to`, keeps those of the latest try, which
 * are stored already, and drops the same lines of earlier ones, and what an earlier end had cut off. A line that somebody
 * has settled meanwhile stays, and what came again of it goes. A line that has not come again stays.
 */
export async function dropRepeatedRefusals(
  transaction: Database,
  receipt: string,
  { from, to, earlierTo, cutOff }: Repeated,
): Promise<void> {
  const client = rawClient(transaction);
  const isCut = client`one.errors -> 0 ->> 'message' in
    (select jsonb_array_elements_text(${JSON.stringify(cutOff)}::text::jsonb))`;
  await client`
    with repeated as (
      select one.id from refused_lines one
      where one.receipt = ${receipt} and one.line between ${from} and ${to} and one.state = 'open' and (
        (one.id <= ${earlierTo} and ${isCut})
        or exists (
          select from refused_lines other
          where other.receipt = one.receipt and other.line = one.line and (
            (other.id > one.id and (other.raw = one.raw or ${isCut}))
            or (other.state <> 'open' and other.raw = one.raw))))
      order by one.id for update of one)
    delete from refused_lines where id in (select id from repeated)`;
}
