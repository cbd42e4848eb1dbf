import { useCallback, useMemo, useState } from 'react';
import type { LivesReply } from '#server/contract/lives.ts';
import { mostDrawnGroups } from '#web/charts/group-ink.ts';
import { highest } from '#web/charts/incidence-option.ts';
import { errorsOf, type LifeFitKind } from '#web/charts/life-paper.ts';
import { lastSeen } from '#web/charts/survival-steps.ts';
import { sayAlike, sayP } from '#web/charts/trend-view.ts';
import { plainAxis } from '#web/charts/use-axis.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { sayChance } from '#web/format/say-chance.ts';
import { HazardFigure } from '#web/screens/analysis/hazard-figure.tsx';
import { ModesFigure } from '#web/screens/analysis/modes-figure.tsx';
import { PaperFigure } from '#web/screens/analysis/paper-figure.tsx';
import { RatioPart } from '#web/screens/analysis/ratio-part.tsx';
import { SurvivalFigure } from '#web/screens/analysis/survival-figure.tsx';
import parts from '#web/ui/parts.module.css';
import { DeclinedList } from './declined-list.tsx';
import { FigureTables } from './figure-tables.tsx';
import { listLivesDeclined, listLivesFigures } from './figures/list-lives-figures.ts';
import { thinGroup } from './figures/thin-group.ts';
import styles from './workbench.module.css';

interface Props {
  reply: LivesReply;
  /** name of the column of the exits */
  use: string;
  name: string;
}

/** Life data with all that the server says of it. */
export function LivesResults({ reply, use, name }: Props) {
  const groups = useMemo(
    () =>
      reply.groups
        .toSorted((a, b) => b.events - a.events)
        .slice(0, mostDrawnGroups)
        .map(thinGroup),
    [reply],
  );
  const axisOf = useCallback(() => plainAxis(use), [use]);
  const [kind, setKind] = useState<LifeFitKind>('weibull');
  const figure = { groups, confidence: reply.confidence, axisOf, source: { selection: name } };
  const withModes = useMemo(() => groups.filter((group) => group.cumulative_incidence.length > 0), [groups]);
  // Beside each other they are read against each other.
  const scale = useMemo(
    () => ({
      to: Math.max(0, ...withModes.map(lastSeen)),
      most: Math.max(
        0,
        ...withModes.map((group) => highest(group.cumulative_incidence, errorsOf(reply.confidence))),
      ),
    }),
    [withModes, reply.confidence],
  );
  const notes = [...new Set([...reply.notes, ...reply.groups.flatMap((group) => group.notes)])];
  return (
    <>
      <div className={styles.lines}>
        <p>{sayLives(reply)}</p>
        {groups.length < reply.groups.length && (
          <p>
            The {groups.length} groups with the most failures are drawn; the tables have all{' '}
            {reply.groups.length}.
          </p>
        )}
        {notes.map((note) => (
          <p key={note}>{keepUnits(note)}</p>
        ))}
      </div>
      <div className={parts.columns}>
        <SurvivalFigure {...figure} />
        {reply.events > 0 && <HazardFigure {...figure} />}
        {reply.events > 0 && <PaperFigure {...figure} kind={kind} onKind={setKind} />}
        {withModes.map((group) => (
          <ModesFigure
            key={group.name}
            {...figure}
            group={group}
            among={withModes}
            scale={scale}
            title={reply.groups.length === 1 ? 'What failed' : `What failed: ${group.name}`}
          />
        ))}
        {reply.cox !== null && (
          <RatioPart
            cox={reply.cox}
            confidence={reply.confidence}
            source={figure.source}
            who="lives"
            isOwn
            caution="The figures say what goes with failing, not what causes it."
          />
        )}
      </div>
      <FigureTables tables={listLivesFigures(reply)} reply={reply} name={name} />
      <DeclinedList lines={listLivesDeclined(reply)} />
    </>
  );
}

function sayLives({ n, events, logrank, groups }: LivesReply): string {
  const failed = `${formatWhole(events)} of ${formatWhole(n)} lives failed.`;
  if (logrank !== null)
    return logrank.p < 0.05
      ? `${failed} The groups differ: chance alone would show that ${sayChance(logrank.p)} (log-rank test, ${sayP(logrank.p)}).`
      : `${failed} Nothing tells the groups apart (log-rank test, ${sayP(logrank.p)}).`;
  const b10 = groups.length === 1 ? groups[0]?.weibull?.b10 : undefined;
  if (!b10) return failed;
  const [middle, low, high] = sayAlike([b10.estimate, b10.low, b10.high]);
  return `${failed} By ${middle} a tenth has failed (Weibull; ${low} to ${high}).`;
}
