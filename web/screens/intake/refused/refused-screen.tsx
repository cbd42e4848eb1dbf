import { useEffect } from 'react';
import settingsStyles from '#web/screens/settings/settings.module.css';

export function RefusedScreen() {
  useEffect(() => {
    document.title = 'Refused lines · Slipdrift';
  }, []);
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <h1>Refused lines</h1>
      </header>
    </div>
  );
}
