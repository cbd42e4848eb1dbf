import { getRouteApi } from '@tanstack/react-router';
import { useEffect } from 'react';
import { findSetUpFile, setUpFiles } from '#server/contract/set-up-files/set-up-files.ts';
import { seesSettings } from '#web/api/role-rights.ts';
import { usePerson } from '#web/api/use-session.ts';
import { Step } from '#web/screens/intake/bring/step.tsx';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import head from '#web/ui/screen-head.module.css';
import styles from './set-up.module.css';
import { SetUpWork } from './set-up-work.tsx';

const route = getRouteApi('/intake/set-up');

const titles = {
  depots: 'Depots',
  platforms: 'Platforms',
  vehicles: 'Vehicles',
  lives: 'Converter lives',
  failures: 'Past failures',
};

/** Sets a fleet of hundreds up from files. */
export function SetUpScreen() {
  const navigate = route.useNavigate();
  const role = usePerson()?.role ?? 'planner';
  const { kind = seesSettings(role) ? 'depots' : 'vehicles' } = route.useSearch();
  useEffect(() => {
    document.title = 'Set-up files · Slipdrift';
  }, []);
  return (
    <div className={styles.page}>
      <header className={head.head}>
        <h1>Set-up files</h1>
        <p className={head.lead}>
          A whole fleet from tables that you have anyway. Each file is tried first: you see every change
          before any is made.
        </p>
      </header>
      <Step number={1} title="What the lines are">
        <RadioLines
          legend="In the order that works: what others name comes first"
          value={kind}
          options={setUpFiles.map((file) => ({
            value: file.kind,
            label: titles[file.kind],
            words: `${file.lead}${file.access === 'setUp' && !seesSettings(role) ? ' For an admin.' : ''}`,
          }))}
          onChange={(next) => void navigate({ search: { kind: next }, replace: true, resetScroll: false })}
        />
      </Step>
      <SetUpWork key={kind} file={findSetUpFile(kind)} role={role} />
    </div>
  );
}
