import type { RawTransaction } from '#db/connection.ts';

/**
 * Writes into the record of changes, which is that of the backup from now on, that it was put back. Nobody is signed in by
 * a session, nor let in by a one-time address, that stood in the file.
 */
export async function noteRestore(
  transaction: RawTransaction,
  backup: { program: string; taken_at: string; rows: number },
): Promise<void> {
  await transaction`delete from public.sessions`;
  await transaction`delete from public.one_time_tokens`;
  await transaction`
    insert into public.changes (at, actor_kind, actor_name, action, subject, subject_id, after)
    values (clock_timestamp(), 'program', 'command line', 'restored', 'storage', 'storage',
      ${JSON.stringify(backup)}::text::jsonb)`;
}
