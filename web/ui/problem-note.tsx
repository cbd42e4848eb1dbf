import styles from './problem-note.module.css';

interface Props {
  error: unknown;
  onRetry?: () => void;
  /** where the server's own words for it would not be the reader's */
  title?: string;
}

const textOf = (error: unknown, key: 'title' | 'detail' | 'request'): string | null => {
  if (typeof error !== 'object' || error === null || !(key in error)) return null;
  const text: unknown = Reflect.get(error, key);
  return typeof text === 'string' ? text : null;
};

/** A refusal as the server said it, with a way to ask again. */
export function ProblemNote({ error, onRetry, title }: Props) {
  const request = textOf(error, 'request');
  return (
    <div className={styles.note} role="alert">
      <p className={styles.title}>{title ?? textOf(error, 'title') ?? 'This part could not be shown'}</p>
      <p>{textOf(error, 'detail') ?? 'Nothing was lost. Try again; if it stays, reload the page.'}</p>
      {request !== null && <p className={styles.request}>Request {request}</p>}
      {onRetry !== undefined && (
        <button type="button" className={styles.retry} onClick={onRetry}>
          Try again
        </button>
      )}
    </div>
  );
}
