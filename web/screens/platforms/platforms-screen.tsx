import { Link } from '@tanstack/react-router';
import { useEffect } from 'react';
import type { PlatformSummary } from '#server/contract/movement.ts';
import { usePlatformSummaries } from '#web/api/use-movement.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { MovementStrip } from './movement-strip.tsx';
import styles from './platforms-screen.module.css';
import { sayState } from './say-state.ts';
import { type StripScale, scaleStrips } from './strip-geometry.ts';

/** In the address, for the vehicles without a platform. */
const noPlatform = '-';
const mostSteps = 2;

/** All platforms, with what their vehicles did together. */
export function PlatformsScreen() {
  const { data, isPending, isError, error, refetch } = usePlatformSummaries();
  useEffect(() => {
    document.title = 'Platforms · Slipdrift';
  }, []);
  const scale = scaleStrips(data ?? []);
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <h1>Platforms</h1>
        <p className={styles.lead}>
          What moves all vehicles of a platform together, such as a software update, is not wear. It is found
          here and taken out of each vehicle.
        </p>
      </header>
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && (
        <p role="status" className={styles.none}>
          Loading the platforms
        </p>
      )}
      {data?.length === 0 && (
        <p>
          No platform is set up and no vehicle has sent a reading yet. Platforms come with POST
          /api/platforms; until then a limit of 150 rpm is assumed for every vehicle.
        </p>
      )}
      {data !== undefined && data.length > 0 && (
        <>
          {scale !== null && <ScaleNote scale={scale} />}
          <ul className={styles.list}>
            {data.map((platform) => (
              <Row key={platform.id ?? noPlatform} platform={platform} scale={scale} />
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

function ScaleNote({ scale }: { scale: StripScale }) {
  const day = (ms: number) => formatUtcDate(new Date(ms).toISOString());
  const [low, high] = [scale.lowRpm, scale.highRpm].map((rpm) => formatWhole(rpm));
  return (
    <p className={styles.note}>
      Each line runs from {day(scale.fromMs)} to {day(scale.toMs)}, all on one scale of {low} to {high} rpm
      against the first weeks; an upright is a step.
    </p>
  );
}

function Row({ platform, scale }: { platform: PlatformSummary; scale: StripScale | null }) {
  const steps = sayState(platform);
  const rest = steps.length - mostSteps;
  return (
    <li className={styles.row}>
      <h2 className={styles.name}>
        <Link to="/platforms/$platform" params={{ platform: platform.id ?? noPlatform }}>
          {platform.name}
        </Link>
      </h2>
      <dl className={styles.facts}>
        <div>
          <dt>vehicles</dt>
          <dd>{formatWhole(platform.vehicles)}</dd>
        </div>
        <div>
          <dt>limit</dt>
          <dd>{formatRpm(platform.limit_rpm)}</dd>
        </div>
      </dl>
      <div className={styles.figure}>
        {scale !== null && platform.weeks.length > 0 && <MovementStrip platform={platform} scale={scale} />}
      </div>
      <ul className={styles.steps} aria-label={`Last steps of ${platform.name}`}>
        {steps.slice(0, mostSteps).map((words) => (
          <li key={words}>{words}</li>
        ))}
        {rest > 0 && <li className={styles.none}>and {rest} before</li>}
      </ul>
    </li>
  );
}
