import type { FieldError } from '#server/contract/problems.ts';
import type { CloseRequest } from '#server/contract/repair.ts';
import { type FindingResult, holdsConverter } from '#server/contract/words.ts';
import { coolerDueWords, coolerLacksWords } from './cooler-words.ts';
import type { StoredReport } from './stored-packet.ts';
import { weighCooler } from './weigh-cooler.ts';

interface Reported {
  report: StoredReport;
  /** of the test steps, newest first */
  findings: readonly { step: string; result: FindingResult }[];
}

/** What stands against closing a job as asked; nothing where it can be closed. */
export function objectToClosing(asked: CloseRequest, { report, findings }: Reported): FieldError[] {
  const errors: FieldError[] = [];
  const object = (field: string, message: string) => errors.push({ field, message });
  const { cause } = report.teardown;
  const isReplaced = report.parts.some(({ kind }) => holdsConverter(kind));
  if (asked.outcome === 'repaired') {
    if (cause === null || cause === 'no_fault_found')
      object('teardown.cause', 'is needed to close a repaired job: say what turned out to be wrong');
    if (report.parts.length === 0 && asked.reason.length < 3)
      object('reason', 'must say what was done, where no part was replaced');
    if (isReplaced && asked.ended === undefined)
      object('ended', 'must say how the old converter ended: failed, or preventive');
    if (report.parts.filter(({ kind }) => holdsConverter(kind)).length > 1)
      object('parts', 'holds more than one converter or transmission: a vehicle has one');
  } else {
    if (isReplaced) object('outcome', 'must be repaired: a converter or transmission stands among the parts');
    if (asked.outcome === 'declined' && asked.reason.length < 3)
      object('reason', 'must say who declined the work, and why');
  }
  if (!isReplaced && asked.ended !== undefined)
    object('ended', 'is for a converter that was replaced; none stands among the parts');
  const { due, record } = weighCooler({ report, findings });
  if (due.due && !record.good && asked.without_cooler.length < 3)
    object(
      'cooler',
      `record is needed. ${coolerDueWords(due)} ${coolerLacksWords(record.lacks)} Record it, or say why it is closed without`,
    );
  return errors;
}
