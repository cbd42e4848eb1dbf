import styles from './bring.module.css';

const shorten = (text: string): string => (text.length > 24 ? `${text.slice(0, 23)}…` : text);

/** Some cells as they stand in the file. */
export const Samples = ({ samples }: { samples: readonly string[] }) =>
  samples.length === 0 ? (
    <span className={styles.soft}>empty</span>
  ) : (
    <span className={styles.samples}>
      {samples.slice(0, 3).map((sample) => (
        <code key={sample}>{shorten(sample)}</code>
      ))}
    </span>
  );
