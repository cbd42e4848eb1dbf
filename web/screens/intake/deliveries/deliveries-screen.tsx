import { useEffect } from 'react';
import settingsStyles from '#web/screens/settings/settings.module.css';

export function DeliveriesScreen() {
  useEffect(() => {
    document.title = 'Deliveries · Slipdrift';
  }, []);
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <h1>Deliveries</h1>
      </header>
    </div>
  );
}
