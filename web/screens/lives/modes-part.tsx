import { useCallback, useMemo } from 'react';
import type { LivesGroup } from '#server/contract/lives.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { mostDrawnGroups } from '#web/charts/group-ink.ts';
import { incidenceOption, listIncidenceNumbers } from '#web/charts/incidence-option.ts';
import { errorsOf } from '#web/charts/life-paper.ts';
import { lastSeen } from '#web/charts/survival-steps.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import { formatKmNumber } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatShape, sayShape } from '#web/format/say-shape.ts';
import { SelectField } from '#web/ui/select-field.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './lives.module.css';
import { Cell, ScrollTable } from './scroll-table.tsx';

interface Props {
  groups: readonly LivesGroup[];
  confidence: number;
  /** name of the group that is shown */
  of: string | undefined;
  onOf: (name: string) => void;
}

const heightPx = 340;

/** What failed, and how much of it by which mileage. */
export function ModesPart({ groups, confidence, of, onOf }: Props) {
  const withModes = groups.filter((group) => group.cumulative_incidence.length > 0);
  const shown =
    withModes.find(({ name }) => name === of) ?? withModes.toSorted((a, b) => b.events - a.events)[0];
  if (shown === undefined)
    return (
      <section className={styles.part}>
        <h2>What failed</h2>
        <p className={styles.soft}>
          No failure has its mode on record. Modes come with the teardown of a packet, or with POST
          /api/lives.
        </p>
      </section>
    );
  return (
    <section className={styles.part}>
      <h2>What failed</h2>
      {withModes.length > 1 && (
        <div className={styles.narrow}>
          <SelectField
            label="Modes of"
            value={shown.name}
            options={withModes.map(({ name }) => ({ value: name, label: name }))}
            onChange={onOf}
          />
        </div>
      )}
      <ModesFigure group={shown} confidence={confidence} />
      <ModesTable group={shown} />
    </section>
  );
}

function ModesFigure({ group, confidence }: { group: LivesGroup; confidence: number }) {
  const curves = useMemo(
    () => group.cumulative_incidence.toSorted((a, b) => b.events - a.events).slice(0, mostDrawnGroups),
    [group],
  );
  const rest = group.cumulative_incidence.length - curves.length;
  const draw = useCallback(
    (frame: Frame) =>
      incidenceOption(
        curves,
        mileageAxis(frame.units),
        { to: lastSeen(group), errors: errorsOf(confidence) },
        frame,
      ),
    [group, curves, confidence],
  );
  const numbers = useCallback(
    (frame: Frame) => listIncidenceNumbers(group.cumulative_incidence, mileageAxis(frame.units)),
    [group],
  );
  return (
    <Chart
      title={
        <p className={styles.reading}>
          Share of converters that have failed of each mode by a mileage, when the other modes may come first.
          {rest > 0 && ` The ${curves.length} most frequent of ${group.cumulative_incidence.length} modes.`}
        </p>
      }
      label={`Share failed of each mode by mileage: ${curves.map(({ mode, events }) => `${mode} ${events}`).join(', ')}.`}
      draw={draw}
      height={heightPx}
      numbers={numbers}
    />
  );
}

function ModesTable({ group }: { group: LivesGroup }) {
  const units = useUnits();
  const last = lastSeen(group);
  if (group.weibull_by_mode.length === 0) return null;
  const isBeyond = group.weibull_by_mode.some(
    ({ weibull }) => weibull !== null && weibull.b10.estimate > last,
  );
  return (
    <>
      <ScrollTable label="Modes">
        <thead>
          <tr>
            <th scope="col">mode, by itself</th>
            <th scope="col">failed</th>
            <th scope="col">a tenth fail by, {units.distance}</th>
            <th scope="col" className={styles.words}>
              shape
            </th>
          </tr>
        </thead>
        <tbody>
          {group.weibull_by_mode.map(({ mode, events, weibull, declined }) => (
            <tr key={mode}>
              <th scope="row">{mode}</th>
              <Cell label="failed">{formatWhole(events)}</Cell>
              {weibull === null ? (
                <td colSpan={2} className={styles.missing}>
                  {declined === null ? '–' : `${declined.reason}: ${declined.needed} needed`}
                </td>
              ) : (
                <>
                  <Cell label={`a tenth fail by, ${units.distance}`}>
                    {formatKmNumber(weibull.b10.estimate, units)}
                    {weibull.b10.estimate > last && <sup>*</sup>}{' '}
                    <span className={styles.bounds}>
                      ({formatKmNumber(weibull.b10.low, units)} to {formatKmNumber(weibull.b10.high, units)})
                    </span>
                  </Cell>
                  <Cell label="shape" isWords>
                    {formatShape(weibull.shape)},{' '}
                    {sayShape({ low: weibull.shape_low, high: weibull.shape_high })}
                  </Cell>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      {isBeyond && <p className={styles.reading}>* beyond what has been seen: the fit carried on.</p>}
    </>
  );
}
