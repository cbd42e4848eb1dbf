import styles from './vehicle-screen.module.css';

/** Keeps the room of what is still on its way, so that nothing jumps when it comes. */
export function Waiting({ name, heightPx }: { name: string; heightPx: number }) {
  return (
    <div className={styles.waiting} style={{ minHeight: heightPx }} role="status">
      <span className="only-spoken">Loading {name}</span>
    </div>
  );
}
