import { useCallback, useMemo, useState } from 'react';
import type { LivesGroup, LivesReply } from '#server/contract/lives.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { mostDrawnGroups } from '#web/charts/group-ink.ts';
import { incidenceOption, listIncidenceNumbers } from '#web/charts/incidence-option.ts';
import { errorsOf, type LifeFitKind } from '#web/charts/life-paper.ts';
import { listPaperNumbers } from '#web/charts/list-paper-numbers.ts';
import { listSurvivalNumbers } from '#web/charts/list-survival-numbers.ts';
import { survivalHeight, survivalOption } from '#web/charts/survival-option.ts';
import { lastSeen } from '#web/charts/survival-steps.ts';
import { sayP, sayShort } from '#web/charts/trend-view.ts';
import { plainAxis, type UseAxis } from '#web/charts/use-axis.ts';
import { weibullPlotOption } from '#web/charts/weibull-plot-option.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
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
  const axis = useMemo(() => plainAxis(use), [use]);
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
          <p key={note}>{note}</p>
        ))}
      </div>
      <div className={styles.columns}>
        <Survival groups={groups} axis={axis} confidence={reply.confidence} name={name} />
        <Paper groups={groups} axis={axis} confidence={reply.confidence} name={name} />
        {groups
          .filter((group) => group.cumulative_incidence.length > 0)
          .map((group) => (
            <Modes key={group.name} group={group} axis={axis} confidence={reply.confidence} name={name} />
          ))}
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
      ? `${failed} The groups differ: chance alone would show that with ${sayP(logrank.p)} (log-rank test).`
      : `${failed} Nothing tells the groups apart (log-rank test, ${sayP(logrank.p)}).`;
  const b10 = groups.length === 1 ? groups[0]?.weibull?.b10 : undefined;
  if (!b10) return failed;
  return `${failed} By ${sayShort(b10.estimate)} a tenth has failed (Weibull; ${sayShort(b10.low)} to ${sayShort(b10.high)}).`;
}

interface FigureProps {
  groups: readonly LivesGroup[];
  axis: UseAxis;
  confidence: number;
  name: string;
}

function Survival({ groups, axis, confidence, name }: FigureProps) {
  const draw = useCallback((frame: Frame) => survivalOption(groups, axis, frame), [groups, axis]);
  const height = useCallback((widthPx: number) => survivalHeight(groups, widthPx), [groups]);
  return (
    <Chart
      title={
        <div>
          <h2>Still running</h2>
          <p className={styles.reading}>
            Share that has not failed. The shade holds {formatPercent(confidence)}, a tick is one last seen
            running. Below: how many are under watch.
          </p>
        </div>
      }
      label={`Share still running against ${axis.title}, ${groups.map((group) => `${group.name}: ${group.events} of ${group.n} failed`).join(', ')}.`}
      selection={name}
      draw={draw}
      height={height}
      numbers={() => listSurvivalNumbers(groups, axis)}
    />
  );
}

const kinds: readonly { value: LifeFitKind; label: string }[] = [
  { value: 'weibull', label: 'Weibull' },
  { value: 'lognormal', label: 'lognormal' },
];

function Paper({ groups, axis, confidence, name }: FigureProps) {
  const [kind, setKind] = useState<LifeFitKind>('weibull');
  const draw = useCallback(
    (frame: Frame) => weibullPlotOption(groups, axis, { kind, confidence }, frame),
    [groups, axis, kind, confidence],
  );
  return (
    <Chart
      title={
        <div>
          <h2>{kind === 'weibull' ? 'Weibull plot' : 'Lognormal plot'}</h2>
          <p className={styles.reading}>
            Paper on which the fit is a straight line: marks that follow it bear it out. The shade holds{' '}
            {formatPercent(confidence)}.
          </p>
        </div>
      }
      tools={<ChoiceGroup legend="Fit" name="fit" options={kinds} value={kind} onChoose={setKind} />}
      label={`Failures on ${kind} probability paper with the fits.`}
      selection={name}
      draw={draw}
      height={360}
      numbers={() => listPaperNumbers(groups, axis, { kind, confidence })}
    />
  );
}

function Modes({ group, axis, confidence, name }: Omit<FigureProps, 'groups'> & { group: LivesGroup }) {
  const curves = useMemo(
    () => group.cumulative_incidence.toSorted((a, b) => b.events - a.events).slice(0, mostDrawnGroups),
    [group],
  );
  const draw = useCallback(
    (frame: Frame) =>
      incidenceOption(curves, axis, { to: lastSeen(group), errors: errorsOf(confidence) }, frame),
    [curves, axis, group, confidence],
  );
  return (
    <Chart
      title={
        <div>
          <h2>Failed by mode, {group.name}</h2>
          <p className={styles.reading}>
            Share that has failed of each mode, the others being in its way (Aalen-Johansen).
          </p>
        </div>
      }
      label={`Share failed by mode: ${curves.map(({ mode, events }) => `${mode}, ${events}`).join('; ')}.`}
      selection={name}
      draw={draw}
      height={340}
      numbers={() => listIncidenceNumbers(curves, axis)}
    />
  );
}
