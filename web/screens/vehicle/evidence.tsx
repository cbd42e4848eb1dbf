import type { VehicleDetail } from '#server/contract/vehicle.ts';
import styles from './evidence.module.css';

/** Why the vehicle has its grade, in words with numbers; what is missing; what somebody should answer. */
export function Evidence({ detail, notes }: { detail: VehicleDetail; notes: readonly string[] }) {
  const { assessment, pattern_words, questions, without_notice: withoutNotice } = detail;
  const reasons = [...(assessment?.reasons ?? []), ...(withoutNotice === null ? [] : [withoutNotice])];
  const missing = [...new Set([...(assessment?.missing ?? []), ...notes])];
  return (
    <section className={styles.evidence}>
      <h2>Evidence</h2>
      {pattern_words !== '' && <p>{pattern_words}</p>}
      {reasons.length > 0 && <Lines lines={reasons} />}
      {assessment === null && <p>This vehicle has not been assessed yet.</p>}
      {missing.length > 0 && (
        <>
          <h3>Missing</h3>
          <Lines lines={missing} />
        </>
      )}
      {questions.length > 0 && (
        <>
          <h3>To be answered</h3>
          <Lines lines={questions} />
        </>
      )}
    </section>
  );
}

function Lines({ lines }: { lines: readonly string[] }) {
  return (
    <ul className={styles.lines}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
