import { type ReactNode, useCallback, useMemo } from 'react';
import type { LivesGroup } from '#server/contract/lives.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { mostDrawnGroups } from '#web/charts/group-ink.ts';
import { type IncidenceScale, incidenceOption, listIncidenceNumbers } from '#web/charts/incidence-option.ts';
import { errorsOf } from '#web/charts/life-paper.ts';
import { inksOfModes, orderModes } from '#web/charts/mode-ink.ts';
import { lastSeen } from '#web/charts/survival-steps.ts';
import head from '#web/ui/screen-head.module.css';
import type { LivesFigureProps } from './figure-props.ts';
import styles from './figures.module.css';

interface Props extends Omit<LivesFigureProps, 'groups'> {
  group: LivesGroup;
  /** among which it stands: a mode keeps its ink in all of them */
  among?: readonly LivesGroup[];
  /** of all drawings that stand beside each other */
  scale?: IncidenceScale;
  /** heading of the picture */
  title: string;
  /** chooses another group */
  children?: ReactNode;
}

const heightPx = 340;

/** How much of a group failed of each mode, and by when. */
export function ModesFigure({ group, among, scale, title, confidence, axisOf, source, children }: Props) {
  const curves = useMemo(
    () => group.cumulative_incidence.toSorted((a, b) => b.events - a.events).slice(0, mostDrawnGroups),
    [group],
  );
  const inks = useMemo(
    () =>
      inksOfModes(
        curves.map(({ mode }) => mode),
        orderModes(among ?? [group]),
      ),
    [curves, among, group],
  );
  const rest = group.cumulative_incidence.length - curves.length;
  const draw = useCallback(
    (frame: Frame) =>
      incidenceOption(
        curves,
        axisOf(frame.units),
        { to: lastSeen(group), errors: errorsOf(confidence), inks, ...(scale && { scale }) },
        frame,
      ),
    [group, curves, inks, scale, confidence, axisOf],
  );
  const numbers = useCallback(
    (frame: Frame) => listIncidenceNumbers(group.cumulative_incidence, axisOf(frame.units)),
    [group, axisOf],
  );
  return (
    <Chart
      title={
        <div>
          <h2>{title}</h2>
          {children && (
            <div className={styles.narrow} data-tools>
              {children}
            </div>
          )}
          <p className={head.reading}>
            Share that has failed of each mode, when the other modes may come first.
            {rest > 0 && ` The ${curves.length} most frequent of ${group.cumulative_incidence.length} modes.`}
          </p>
        </div>
      }
      label={`Share failed of each mode: ${curves.map(({ mode, events }) => `${mode}, ${events}`).join('; ')}.`}
      draw={draw}
      height={heightPx}
      numbers={numbers}
      {...source}
    />
  );
}
