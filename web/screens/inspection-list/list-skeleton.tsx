import styles from './inspection-list.module.css';

const lines = Array.from({ length: 14 }, (_, i) => i);

/** Lines where the rows will stand, in their height, so that nothing jumps when they come. */
export function ListSkeleton() {
  return (
    <div className={styles.skeleton} role="status">
      <span className="only-spoken">Loading the inspection list</span>
      {lines.map((line) => (
        <div key={line} className={styles.skeletonRow} style={{ opacity: 1 - line / lines.length }}>
          <span />
          <span />
          <span />
          <span />
        </div>
      ))}
    </div>
  );
}
