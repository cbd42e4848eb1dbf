import type { PreviewRequest } from '#server/contract/settings.ts';
import { usePreview } from '#web/api/use-preview.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './effect.module.css';
import { GradeMoves } from './grade-moves.tsx';
import { MovedTable } from './moved-table.tsx';
import { sayEffect } from './say-effect.ts';

interface Props {
  /** the change as it stands in the form; null where there is none that could be tried */
  request: PreviewRequest | null;
  /** what stands there instead */
  none: string;
}

/** What a change would do to the list, beside the form as somebody types. */
export function EffectPanel({ request, none }: Props) {
  const { data, isFetching, isError, error, isPlaceholderData, refetch } = usePreview(request);
  const preview = request === null ? null : (data?.preview ?? null);
  return (
    <section className={styles.panel} aria-label="Effect on the list" aria-busy={isFetching}>
      <h2 className={styles.title}>Effect on the list</h2>
      {request === null ? (
        <p className={styles.soft}>{none}</p>
      ) : isError ? (
        <ProblemNote error={error} onRetry={() => void refetch()} />
      ) : preview === null || data === undefined ? (
        <Working done={data?.done ?? 0} of={data?.of ?? 0} />
      ) : (
        <div className={styles.made}>
          <GradeMoves before={preview.before} after={preview.after} />
          <p role="status">
            {isPlaceholderData ? 'Working it out anew' : `${sayEffect(preview)} Nothing is saved yet.`}
          </p>
          <MovedTable preview={preview} />
        </div>
      )}
    </section>
  );
}

function Working({ done, of }: { done: number; of: number }) {
  return (
    <div className={styles.working}>
      <p role="status">{sayWork(done, of)}</p>
      {of > 0 && (
        <p className={styles.progress}>
          <progress max={of} value={done} aria-label="Vehicles assessed" />
          <span>{formatWhole(done)} done</span>
        </p>
      )}
    </div>
  );
}

function sayWork(done: number, of: number): string {
  if (of === 0) return 'Ranking the list with the change';
  const vehicles = `the ${formatWhole(of)} vehicles of this platform`;
  return done === 0 ? `Learning anew what ${vehicles} have in common` : `Assessing ${vehicles} anew`;
}
