import { type Cause, causes, type FindingResult } from '#server/contract/words.ts';
import type { PanResult } from '#server/engine/diagnosis/diagnosis-model.ts';
import { type CoolerDue, isCoolerDue } from '#server/engine/diagnosis/is-cooler-due.ts';
import { type CoolerRecordJudged, judgeCoolerRecord } from '#server/engine/diagnosis/judge-cooler-record.ts';
import type { StoredReport } from './stored-packet.ts';

const panResults: readonly string[] = ['pan_clean', 'pan_fine', 'pan_lining', 'pan_metal'];
const isPanResult = (result: FindingResult): result is PanResult => panResults.includes(result);

interface Found {
  report: StoredReport;
  /** of the test steps, newest first */
  findings: readonly { step: string; result: FindingResult }[];
}

/** Whether the cooler must be dealt with, after what the pan and the teardown showed, and how good its record is. */
export function weighCooler({ report, findings }: Found): { due: CoolerDue; record: CoolerRecordJudged } {
  const pan = findings.map(({ result }) => result).find(isPanResult) ?? null;
  const { cooler } = report;
  return {
    due: isCoolerDue({ pan, cause: report.teardown.cause, partKinds: report.parts.map(({ kind }) => kind) }),
    record: judgeCoolerRecord(
      cooler === null
        ? null
        : {
            done: cooler.done,
            minutes: cooler.minutes,
            method: cooler.method,
            bothDirections: cooler.both_directions,
            filterClean: cooler.filter_clean,
            flowAfterLMin: cooler.flow_after_l_min,
          },
    ),
  };
}

export const toCause = (text: string | null): Cause | null => causes.find((one) => one === text) ?? null;
