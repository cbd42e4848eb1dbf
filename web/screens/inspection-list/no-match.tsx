import styles from './inspection-list.module.css';
import { noFilter } from './list-search.ts';
import type { ListState } from './use-list-state.ts';

export function NoMatch({ state }: { state: ListState }) {
  const clear = () => state.change(noFilter);
  return (
    <div className={styles.block}>
      <h2>No vehicle matches</h2>
      <p>The list has vehicles, but none fits all that is asked for above.</p>
      <button type="button" className={styles.button} onClick={clear}>
        Show all vehicles
      </button>
    </div>
  );
}
