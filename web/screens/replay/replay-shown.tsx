import { Link } from '@tanstack/react-router';
import type { Replay } from '#server/contract/replay.ts';
import { usePlatforms } from '#web/api/use-fleet.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { isUnderWay } from '#web/api/use-replay.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatKm } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import parts from '#web/ui/parts.module.css';
import { useKeptFocus } from '#web/ui/use-kept-focus.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { AdoptNote } from './adopt-note.tsx';
import { ComparePart } from './compare-part.tsx';
import { listDifferences, sayDifferences } from './list-differences.ts';
import styles from './replay.module.css';
import { draftOf, type Present, toSearch } from './replay-draft.ts';
import { ReplayProgress } from './replay-progress.tsx';
import { ReplayResultView } from './replay-result.tsx';
import type { ReplaySearch } from './replay-search.ts';
import { sayAgainst, sayBroken, sayReplay, sayScope } from './say-replay.ts';

interface Props {
  replay: Replay;
  compare: number | null;
  present: Present;
  onShow: (next: ReplaySearch, replace?: boolean) => void;
}

/** One replay: how far it is, why there is nothing, or what came of it. */
export function ReplayShown({ replay, compare, present, onShow }: Props) {
  const names = useFleetNames();
  const units = useUnits();
  const platforms = usePlatforms().data;
  const { id, request, state, result } = replay;
  const limitOf = (platform: string) => platforms?.find((one) => one.id === platform)?.limit_rpm ?? null;
  const scope = useKeptFocus<HTMLHeadingElement>(state);
  const differences = listDifferences(request, { thresholds: present.thresholds, limitOf }, names);
  const against = result === null ? null : sayAgainst(result, units);
  return (
    <article className={styles.shown} aria-busy={isUnderWay(replay)}>
      <header className={`${parts.part} ${styles.head}`}>
        {result !== null && (
          <p className={styles.lead} role="status">
            {sayReplay(result, units)}
          </p>
        )}
        {against !== null && <p className={styles.words}>{against}</p>}
        <h2 ref={scope} tabIndex={-1}>
          {sayScope(request, names)}
        </h2>
        <p className={styles.soft}>
          {request.note !== '' && `${request.note}. `}Horizon {formatKm(request.horizon_km, units)}.{' '}
          {result !== null &&
            `${formatWhole(result.vehicles)} vehicles with readings, ${formatWhole(result.days)} days. `}
          Replay {id}, asked for by {replay.asked_by}, {formatMoment(replay.asked_at)}.
        </p>
        <p className={styles.words}>
          {differences.length === 0
            ? 'With the thresholds and limits in use now.'
            : `Not as in use now: ${sayDifferences(differences)}.`}
        </p>
        <p>
          <Link to="/analysis/replay" search={toSearch(draftOf(request, present), present)}>
            Change something and run it again
          </Link>
        </p>
      </header>
      {isUnderWay(replay) && <ReplayProgress replay={replay} />}
      {state === 'cancelled' && (
        <p className={styles.words}>
          This replay was cancelled. Nothing was changed, and nothing came of it.
        </p>
      )}
      {state === 'failed' && (
        <p className={styles.warning} role="alert">
          {sayBroken(replay.error)}
        </p>
      )}
      {result !== null && (
        <>
          {differences.length > 0 && <AdoptNote differences={differences} />}
          <ReplayResultView id={id} result={result} scope={sayScope(request, names)} />
          <ComparePart
            replay={replay}
            compare={compare}
            onChoose={(other) => onShow(other === null ? { id } : { id, compare: other }, true)}
          />
        </>
      )}
    </article>
  );
}
