import type { RawTransaction } from '#db/connection.ts';

/** Writes into the record of changes, which is that of the backup from now on, that it was put back. */
export async function noteRestore(
  transaction: RawTransaction,
  backup: { program: string; taken_at: string; rows: number },
): Promise<void> {
  await transaction`
    insert into public.changes (at, actor_kind, actor_name, action, subject, subject_id, after)
    values (clock_timestamp(), 'program', 'command line', 'restored', 'storage', 'storage',
      ${JSON.stringify(backup)}::text::jsonb)`;
}
