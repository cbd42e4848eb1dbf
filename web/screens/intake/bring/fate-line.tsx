import { Link } from '@tanstack/react-router';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './bring.module.css';
import { sayReply, saySent } from './say-fate.ts';
import { sayCounts } from './say-look.ts';
import type { Fate } from './use-sending.ts';

/** What is going on with a file, or came of it. */
export function FateLine({ name, size, fate }: { name: string; size: number; fate: Fate }) {
  switch (fate.phase) {
    case 'waiting':
      return <p className={styles.soft}>waits for its turn</p>;
    case 'sending': {
      const words = saySent(fate.sent, size);
      return (
        <div className={styles.progress}>
          <progress aria-label={`${name}, sent`} max={Math.max(1, size)} value={Math.min(fate.sent, size)} />
          <span>{fate.isTrial ? words.replace('read and stored', 'read') : words}</span>
        </div>
      );
    }
    case 'stored':
      return (
        <p>
          {sayReply(fate.reply)}{' '}
          <Link to="/intake/deliveries" search={{ open: fate.reply.receipt }} className={styles.link}>
            The delivery
          </Link>
          {fate.reply.refused > 0 && (
            <>
              {' '}
              <Link to="/intake/refused" search={{ receipt: fate.reply.receipt }} className={styles.link}>
                Its refused lines
              </Link>
            </>
          )}
        </p>
      );
    case 'tried':
      return <p>The whole file, not stored: {sayCounts(fate.look)}</p>;
    case 'stopped':
      return <p>Stopped. What was stored before stays; sent again, nothing is stored twice.</p>;
    case 'failed':
      return <ProblemNote error={fate.error} />;
  }
}
