import { Link, Outlet } from '@tanstack/react-router';
import styles from '#web/ui/screen-parts.module.css';

/** What compares the fleet's converters, looks back, and reckons with tables of one's own. */
export function AnalysisLayout() {
  return (
    <div className={styles.page}>
      <nav className={styles.nav} aria-label="Analysis">
        <Link to="/analysis/lives" activeOptions={{ includeSearch: false }}>
          Lives
        </Link>
        <Link to="/analysis/replay" activeOptions={{ includeSearch: false }}>
          Replay
        </Link>
        <Link to="/analysis/workbench" activeOptions={{ includeSearch: false }}>
          Workbench
        </Link>
      </nav>
      <Outlet />
    </div>
  );
}
