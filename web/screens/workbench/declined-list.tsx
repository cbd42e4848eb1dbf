import parts from '#web/ui/parts.module.css';
import type { DeclinedLine } from './figures/list-lives-figures.ts';
import styles from './workbench.module.css';

/** Parts that could not be had, with why and what would be enough. */
export const DeclinedList = ({ lines }: { lines: readonly DeclinedLine[] }) =>
  lines.length === 0 ? null : (
    <section className={parts.part}>
      <h2>What could not be had</h2>
      <ul className={styles.lines}>
        {lines.map(({ what, reason, needed, got }) => (
          <li key={what}>
            <strong>{what}</strong>: {reason}. Needed: {needed}. There is: {got}.
          </li>
        ))}
      </ul>
    </section>
  );
