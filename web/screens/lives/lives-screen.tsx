import { getRouteApi } from '@tanstack/react-router';
import { useEffect, useMemo } from 'react';
import type { FleetLivesReply } from '#server/contract/lives.ts';
import { useFleetLives } from '#web/api/use-lives.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import { formatDayAndYear } from '#web/format/format-day.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { HazardFigure } from '#web/screens/analysis/hazard-figure.tsx';
import { PaperFigure } from '#web/screens/analysis/paper-figure.tsx';
import { SurvivalFigure } from '#web/screens/analysis/survival-figure.tsx';
import parts from '#web/ui/parts.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import head from '#web/ui/screen-head.module.css';
import { useUnits } from '#web/ui/use-units.ts';
import { ExportPart } from './export-part.tsx';
import { ExposuresPart } from './exposures-part.tsx';
import { FitsPart } from './fits-part.tsx';
import { GroupTest } from './group-test.tsx';
import { GroupsTable } from './groups-table.tsx';
import styles from './lives.module.css';
import { LivesChoices } from './lives-choices.tsx';
import { askOf, isNarrowed, type LivesPatch, type LivesSearch, patchLivesSearch } from './lives-search.ts';
import { ModesPart } from './modes-part.tsx';
import { nameGroups, pickDrawn } from './name-groups.ts';
import { NoLives } from './no-lives.tsx';
import { countWord, sayLives, sayWatched } from './say-lives.ts';
import { sayLivesChoice } from './say-lives-choice.ts';

const route = getRouteApi('/analysis/lives');

/** Failure mileage of the fleet's converters, compared. */
export function LivesScreen() {
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const ask = useMemo(() => askOf(search), [search]);
  const { data, isPending, isPlaceholderData, error, refetch } = useFleetLives(ask);
  const change = (patch: LivesPatch) =>
    void navigate({ search: (old) => patchLivesSearch(old, patch), replace: true, resetScroll: false });
  const showAll = () =>
    change({ platform: undefined, depot: undefined, source: undefined, from: undefined, to: undefined });
  useEffect(() => {
    document.title = 'Lives · Slipdrift';
  }, []);
  return (
    <div className={styles.page} aria-busy={isPlaceholderData || isPending}>
      <h1>Lives</h1>
      {data !== undefined && data.n > 0 && error === null && <Head reply={data} />}
      <LivesChoices search={search} choices={data?.choices} onChange={change} />
      {isPending && (
        <p role="status" className={styles.soft}>
          Reckoning
        </p>
      )}
      {error !== null && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {data !== undefined && error === null && (
        <div className={styles.parts} data-waiting={isPlaceholderData}>
          {data.n === 0 ? (
            <NoLives isNarrowed={isNarrowed(search)} onShowAll={showAll} />
          ) : (
            <Parts reply={data} search={search} onChange={change} />
          )}
          <FitsPart fits={data.fits} choices={data.choices} />
          <LeftOut reply={data} />
          <ExportPart search={search} lives={data.n} />
        </div>
      )}
    </div>
  );
}

function Head({ reply }: { reply: FleetLivesReply }) {
  const units = useUnits();
  const axis = mileageAxis(units);
  const groups = useMemo(() => nameGroups(reply, units), [reply, units]);
  return (
    <header className={styles.head}>
      <p className={head.lead} role="status">
        {sayLives(reply, groups, axis)}
      </p>
      <p className={head.reading}>{sayWatched(reply, axis)}</p>
    </header>
  );
}

interface PartsProps {
  reply: FleetLivesReply;
  search: LivesSearch;
  onChange: (patch: LivesPatch) => void;
}

function Parts({ reply, search, onChange }: PartsProps) {
  const units = useUnits();
  const groups = useMemo(() => nameGroups(reply, units), [reply, units]);
  const { drawn, others } = useMemo(() => pickDrawn(groups), [groups]);
  const kind = search.fit ?? 'weibull';
  const hasFailures = reply.events > 0;
  const { last_day: lastDay } = reply.choices;
  const source = {
    selection: sayLivesChoice(search, reply.choices),
    dataTo: lastDay === null ? undefined : formatDayAndYear(lastDay),
  };
  const figure = { groups: drawn, confidence: reply.confidence, axisOf: mileageAxis, source };
  return (
    <>
      <div>
        <SurvivalFigure {...figure} />
        {others.length > 0 && (
          <p className={head.reading}>
            Not drawn, with fewer failures: {others.map(({ name }) => name).join(', ')}. They are in the
            tables below{reply.logrank === null ? '' : ' and in the test'}.
          </p>
        )}
      </div>
      {hasFailures && (
        <div className={parts.columns}>
          <HazardFigure {...figure} />
          <PaperFigure
            {...figure}
            kind={kind}
            onKind={(fit) => onChange({ fit: fit === 'lognormal' ? fit : undefined })}
          />
        </div>
      )}
      <GroupsTable groups={groups} kind={kind} />
      <GroupTest reply={reply} groups={groups} />
      {hasFailures && (
        <div className={parts.columns}>
          {reply.grouped_by !== 'mode' && (
            <ModesPart {...figure} groups={groups} of={search.of} onOf={(of) => onChange({ of })} />
          )}
          <ExposuresPart reply={reply} source={source} />
        </div>
      )}
    </>
  );
}

function LeftOut({ reply: { left_out, notes } }: { reply: FleetLivesReply }) {
  if (left_out.length === 0 && notes.length === 0) return null;
  return (
    <section className={parts.told}>
      <h2>Left out, and to know</h2>
      <ul className={styles.lines}>
        {left_out.map(({ reason, lives }) => (
          <li key={reason}>
            {countWord(lives, 'life', 'lives')}: {reason}
            {reason.endsWith('.') ? '' : '.'}
          </li>
        ))}
        {notes.map((note) => (
          <li key={note}>{keepUnits(note)}</li>
        ))}
      </ul>
    </section>
  );
}
