import type { LivesGroup } from '#server/contract/lives.ts';
import { errorsOf, fittedUse, type LifeFitKind, paperPoints } from './life-paper.ts';
import { plainUse } from './list-survival-numbers.ts';
import type { NumbersTable } from './numbers.ts';
import type { UseAxis } from './use-axis.ts';

const shares = [0.01, 0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 0.95, 0.99];

interface Settings {
  kind: LifeFitKind;
  confidence: number;
}

/** The marks of each group, and the fitted line with its bounds where there is one. */
export const listPaperNumbers = (
  groups: readonly LivesGroup[],
  axis: UseAxis,
  { kind, confidence }: Settings,
): NumbersTable[] =>
  groups.flatMap((group) => {
    const line = shares.flatMap((share) => {
      const fitted = fittedUse(kind, group, share, errorsOf(confidence));
      return fitted === null ? [] : [{ share, ...fitted }];
    });
    const marks: NumbersTable = {
      caption: `Failures on the paper, ${group.name}`,
      columns: [
        { title: axis.unit, kind: 'figure' },
        { title: 'failed', kind: 'figure' },
      ],
      rows: paperPoints(group).map(({ x, failed }) => [plainUse(x, axis), failed.toFixed(4)]),
    };
    const fit: NumbersTable = {
      caption: `Fitted line, ${group.name}`,
      columns: [
        { title: 'failed', kind: 'figure' },
        { title: axis.unit, kind: 'figure' },
        { title: 'low', kind: 'figure' },
        { title: 'high', kind: 'figure' },
      ],
      rows: line.map(({ share, x, low, high }) => [
        String(share),
        ...[x, low, high].map((value) => plainUse(value, axis)),
      ]),
    };
    return line.length === 0 ? [marks] : [marks, fit];
  });
