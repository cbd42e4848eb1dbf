import { useCallback, useMemo } from 'react';
import type { ReplayResult, RuleScore } from '#server/contract/replay.ts';
import { calibrationOption, listCalibrationNumbers } from '#web/charts/calibration-option.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { listNoticeNumbers, noticeHeight, noticeOption } from '#web/charts/notice-option.ts';
import { scoreHeight, scoreLegend, scoreOption } from '#web/charts/replay-score-option.ts';
import { listWeeksNumbers, weeksHeightPx, weeksOption } from '#web/charts/replay-weeks-option.ts';
import { formatWhole } from '#web/format/format-number.ts';
import parts from '#web/ui/parts.module.css';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './replay.module.css';
import { ruleWords } from './replay-words.ts';
import { sayCalibration } from './say-calibration.ts';

interface Props {
  result: ReplayResult;
  /** for pictures that are saved: of what, and until when */
  selection: string;
  dataTo: string;
}

const nameOf = ({ rule }: Pick<RuleScore, 'rule'>): string => ruleWords[rule];

export function ScoreFigure({ result, ...of }: Props) {
  const { scores, failures } = result;
  const draw = useCallback(
    (frame: Frame) => scoreOption({ scores, failures, nameOf }, frame),
    [scores, failures],
  );
  const numbers = useCallback(
    () => [
      {
        caption: 'The list against plain rules',
        columns: [
          { title: 'rule', kind: 'word' as const },
          ...['asked', 'right', 'early', 'needless', 'undecided', 'found', 'missed'].map((title) => ({
            title,
            kind: 'figure' as const,
          })),
        ],
        rows: scores.map((one) => [
          nameOf(one),
          ...[one.asked, one.right, one.early, one.needless, one.undecided, one.found, one.missed].map(
            formatWhole,
          ),
        ]),
      },
    ],
    [scores],
  );
  const words = scores.map(
    (one) =>
      `${nameOf(one)} found ${one.found}, missed ${one.missed}, ${one.early} early, ${one.needless} needless`,
  );
  return (
    <Chart
      title={<h3>Found, missed and needless</h3>}
      label={`Found, missed and needless: ${words.join('; ')}.`}
      draw={draw}
      height={(widthPx) => scoreHeight(scores.length, widthPx)}
      numbers={numbers}
      legend={scoreLegend}
      {...of}
    />
  );
}

/** Notice counts up to the horizon: a little more of the scale shows that it ends there. */
const BEYOND_HORIZON = 1.1;

export function NoticeFigure({ result, ...of }: Props) {
  const rules = useMemo(() => result.scores.map(({ rule }) => ({ rule, name: ruleWords[rule] })), [result]);
  const draw = useCallback(
    (frame: Frame) => noticeOption({ result, rules, scaleKm: BEYOND_HORIZON * result.horizon_km }, frame),
    [result, rules],
  );
  return (
    <Chart
      title={
        <div className={styles.caption}>
          <h2>Notice</h2>
          <p className={styles.reading}>
            A dot is one that was found, so far before it came; the limit is at the left. The thick stroke
            holds the middle 80 %, the notch is the middle, the dotted line the horizon.
          </p>
        </div>
      }
      label={`Notice of each rule: ${rules.map(({ rule, name }) => `${name} found ${result.scores.find((one) => one.rule === rule)?.found ?? 0}`).join('; ')}.`}
      draw={draw}
      height={noticeHeight(rules.length)}
      numbers={({ units }) => listNoticeNumbers({ result, rules }, units)}
      {...of}
    />
  );
}

export function CalibrationFigure({ result: { calibration, horizon_km }, ...of }: Props) {
  const units = useUnits();
  const draw = useCallback((frame: Frame) => calibrationOption(calibration, frame), [calibration]);
  const verdict = sayCalibration(calibration, horizon_km, units);
  return (
    <section className={parts.part}>
      <Chart
        title={
          <div className={styles.caption}>
            <h2>Chances, stated and seen</h2>
            <p className={styles.reading}>
              Looks a week apart, gathered by the chance that the list stated. On the dashed line as many came
              as was said; strokes are the bounds of 95 %, and a hollow dot is one whose bounds do not reach
              the line. Where too few were followed there is no dot.
            </p>
          </div>
        }
        label={`Chances as the list stated them against the share that came within the horizon. ${verdict}`}
        draw={draw}
        height={360}
        numbers={() => listCalibrationNumbers(calibration)}
        {...of}
      />
      <p className={styles.words}>{verdict}</p>
    </section>
  );
}

export function WeeksFigure({ result: { weeks, from }, ...of }: Props) {
  const draw = useCallback((frame: Frame) => weeksOption(weeks, from, frame), [weeks, from]);
  return (
    <Chart
      title={
        <div className={styles.caption}>
          <h2>Week by week</h2>
          <p className={styles.reading}>Vehicles on hold and book, and above them what came in each week.</p>
        </div>
      }
      label="Vehicles on hold and book at the end of each week, and what came in it."
      draw={draw}
      height={weeksHeightPx}
      numbers={() => listWeeksNumbers(weeks, from)}
      {...of}
    />
  );
}
