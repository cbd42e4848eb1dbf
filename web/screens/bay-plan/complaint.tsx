import { Button } from '#web/ui/button.tsx';
import styles from './complaint.module.css';

export interface Complained {
  title: string;
  error?: unknown;
}

/** What could not be done, and why, until somebody has read it. */
export function Complaint({ title, error, onClose }: Complained & { onClose: () => void }) {
  return (
    <div className={styles.complaint} role="alert">
      <p>
        <strong>{title}</strong> {tellWhy(error)}
      </p>
      <Button kind="quiet" onClick={onClose}>
        Understood
      </Button>
    </div>
  );
}

const tellWhy = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'detail' in error && typeof error.detail === 'string'
    ? error.detail
    : '';
