import { useEffect } from 'react';
import styles from '#web/ui/screen-head.module.css';

/** Brings files of any form in, after a look at what they would come to. */
export function BringScreen() {
  useEffect(() => {
    document.title = 'Bring a file · Slipdrift';
  }, []);
  return (
    <header className={styles.head}>
      <h1>Bring a file</h1>
    </header>
  );
}
