import type { ReactNode } from 'react';
import parts from '#web/ui/parts.module.css';
import styles from './bring.module.css';
import { sayFields } from './take-words.ts';

interface Props {
  number: number;
  title: string;
  children: ReactNode;
}

/** One of the steps, which all stay in sight. */
export const Step = ({ number, title, children }: Props) => (
  <section className={`${parts.part} ${styles.step}`} aria-label={title}>
    <h2>
      <span className={styles.number}>{number}</span> {title}
    </h2>
    {children}
  </section>
);

/** Plain sentences beside what they concern: what could be meant otherwise, and what is lacking. */
export const Remarks = ({
  doubts = [],
  lacks = [],
}: {
  doubts?: readonly string[];
  lacks?: readonly { field: string; message: string }[];
}) =>
  doubts.length + lacks.length === 0 ? null : (
    <ul className={styles.remarks}>
      {lacks.map(({ field, message }) => (
        <li key={`${field} ${message}`} data-kind="lack">
          {field === '' ? (
            <>
              <strong>In the way:</strong> it {sayFields(message)}
            </>
          ) : (
            <>
              <strong>Lacking:</strong> {field} {sayFields(message)}
            </>
          )}
        </li>
      ))}
      {doubts.map((doubt) => (
        <li key={doubt}>
          <strong>To check:</strong> {sayFields(doubt)}
        </li>
      ))}
    </ul>
  );
