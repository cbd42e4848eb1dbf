import { type ReactNode, useId, useState } from 'react';
import { Button } from '#web/ui/button.tsx';
import { RailScale } from '#web/ui/rail-scale.tsx';
import styles from './digest.module.css';

interface Props {
  title: string;
  /** what is said where there is no line */
  none: string;
  /** the ends of the rails, named above the first part that has any */
  scale?: { horizonKm: number; scaleKm: number } | null;
  /** what stands behind the last line */
  more?: ReactNode;
  children: ReactNode[];
}

/** More than this is shown when asked for; in print it always is. */
const MOST = 15;

export function DigestPart({ title, none, scale = null, more = null, children }: Props) {
  const id = useId();
  const [isWhole, setWhole] = useState(false);
  const n = children.length;
  const isFolded = n > MOST && !isWhole;
  return (
    <section className={styles.part} data-empty={n === 0} aria-labelledby={id}>
      <h2 id={id} className={styles.name}>
        {title}
        {n > 0 && <span className={styles.count}>{n}</span>}
      </h2>
      <div className={styles.content}>
        {n === 0 && <p className={styles.none}>{none}</p>}
        {n > 0 && scale !== null && (
          <div className={styles.scale} aria-hidden="true">
            <RailScale {...scale} />
          </div>
        )}
        {n > 0 && (
          <ul className={styles.lines} data-folded={isFolded}>
            {children}
          </ul>
        )}
        {n > MOST && (
          <div className={styles.unfold}>
            <Button kind="quiet" aria-expanded={isWhole} onClick={() => setWhole(!isWhole)}>
              {isWhole ? `Show the first ${MOST}` : `Show all ${n}`}
            </Button>
          </div>
        )}
        {more !== null && more !== false && <p className={styles.none}>{more}</p>}
      </div>
    </section>
  );
}
