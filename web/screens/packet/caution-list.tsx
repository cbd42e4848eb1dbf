import styles from './caution-list.module.css';

/** What can hurt, before the work that it belongs to. */
export function CautionList({ cautions }: { cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <ul className={styles.cautions} aria-label="Cautions">
      {cautions.map((line) => (
        <li key={line}>
          <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
            <path d="M8 1v9M8 12.5v2.5" />
          </svg>
          {line}
        </li>
      ))}
    </ul>
  );
}
