import styles from './series-mark.module.css';

/** The mark that a vehicle's stretches have in a chart of several; the drawing of the chart has the same. */
export function SeriesMark({ index }: { index: number }) {
  return (
    <svg className={styles.mark} data-mark={index} viewBox="0 0 10 10" aria-hidden="true">
      {index === 0 ? (
        <circle cx="5" cy="5" r="4.5" />
      ) : index === 1 ? (
        <rect x="0.5" y="0.5" width="9" height="9" />
      ) : (
        <path d="M5 0 10 9.5H0Z" />
      )}
    </svg>
  );
}
