import { Link } from '@tanstack/react-router';
import type { Ref } from 'react';
import { Button } from '#web/ui/button.tsx';
import parts from '#web/ui/parts.module.css';
import { type Example, examples } from './examples/examples.ts';
import styles from './workbench.module.css';

interface Props {
  name: string;
  title: Ref<HTMLHeadingElement>;
  example: Example | undefined;
  /** null where the text is too long for a field, or in a file */
  onEdit: (() => void) | null;
  onAnother: () => void;
}

/** Which table is shown, and the ways to another. */
export const SourceHead = ({ name, title, example, onEdit, onAnother }: Props) => (
  <section className={parts.part}>
    <div className={styles.partHead}>
      <h2 ref={title} tabIndex={-1}>
        {name}
      </h2>
      {onEdit !== null && (
        <Button kind="quiet" onClick={onEdit}>
          Change the text
        </Button>
      )}
      <Button kind="quiet" onClick={onAnother}>
        Another table
      </Button>
    </div>
    {example !== undefined && <p className={styles.soft}>Published data. {example.source}</p>}
  </section>
);

/** Published data to begin with. */
export const ExampleList = () => (
  <section className={parts.part}>
    <h2>Examples</h2>
    <ul className={styles.examples}>
      {examples.map((one) => (
        <li key={one.id}>
          <Link to="/analysis/workbench" search={{ example: one.id }}>
            {one.name}
          </Link>
          <p className={styles.soft}>{one.source}</p>
        </li>
      ))}
    </ul>
  </section>
);
