import { useEffect } from 'react';
import settingsStyles from '#web/screens/settings/settings.module.css';

export function GatewaysScreen() {
  useEffect(() => {
    document.title = 'Gateways · Slipdrift';
  }, []);
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <h1>Gateways</h1>
      </header>
    </div>
  );
}
