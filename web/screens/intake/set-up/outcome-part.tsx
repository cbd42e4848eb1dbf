import type { SetUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { ChangesTable } from './changes-table.tsx';
import { sayLines, sayOutcome } from './say-outcome.ts';
import styles from './set-up.module.css';

/** What a file would come to, or came to: in a sentence, what to look at, and every change. */
export function OutcomePart({ name, reply }: { name: string; reply: SetUpFileReply }) {
  return (
    <div className={styles.part}>
      <p role="status" className={styles.sentence}>
        {sayOutcome(name, reply)}
      </p>
      {reply.warnings.length > 0 && (
        <div className={styles.warnings}>
          <h3>To check</h3>
          <ul>
            {reply.warnings.map((warning) => (
              <li key={`${warning.field} ${warning.message}`}>
                <strong>{sayLines(warning)}</strong>: {warning.field !== '' && <code>{warning.field}</code>}{' '}
                {warning.message}
              </li>
            ))}
          </ul>
          {reply.warnings_total > reply.warnings.length && (
            <p className={styles.soft}>
              And {formatWhole(reply.warnings_total - reply.warnings.length)} further warnings.
            </p>
          )}
        </div>
      )}
      {reply.changes.length > 0 && <ChangesTable reply={reply} />}
    </div>
  );
}
