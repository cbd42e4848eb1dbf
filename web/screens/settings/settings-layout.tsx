import { Link, Outlet } from '@tanstack/react-router';
import styles from '#web/ui/screen-parts.module.css';

/** What only an admin sees. */
export function SettingsLayout() {
  return (
    <div className={styles.page}>
      <nav className={styles.nav} aria-label="Settings">
        <Link to="/settings/people" activeOptions={{ includeSearch: false }}>
          People
        </Link>
        <Link to="/settings/keys" activeOptions={{ includeSearch: false }}>
          Keys
        </Link>
        <Link to="/settings/webhooks" activeOptions={{ includeSearch: false }}>
          Webhooks
        </Link>
        <Link to="/settings/depots" activeOptions={{ includeSearch: false }}>
          Depots
        </Link>
        <Link to="/settings/platforms" activeOptions={{ includeSearch: false }}>
          Platforms
        </Link>
        <Link to="/settings/thresholds" activeOptions={{ includeSearch: false }}>
          Thresholds
        </Link>
        <Link to="/settings/storage" activeOptions={{ includeSearch: false }}>
          Storage
        </Link>
        <Link to="/settings/changes" activeOptions={{ includeSearch: false }}>
          Changes
        </Link>
      </nav>
      <Outlet />
    </div>
  );
}
