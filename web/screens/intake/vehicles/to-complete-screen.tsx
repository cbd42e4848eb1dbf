import { useEffect } from 'react';
import settingsStyles from '#web/screens/settings/settings.module.css';

export function ToCompleteScreen() {
  useEffect(() => {
    document.title = 'Vehicles to complete · Slipdrift';
  }, []);
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <h1>Vehicles to complete</h1>
      </header>
    </div>
  );
}
