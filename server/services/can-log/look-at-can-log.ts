import type { CanSummary, Doubt } from '#server/contract/looks.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { normaliseVin } from '#server/contract/vin.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import type { Line } from '#server/services/intake/line.ts';
import type { Draft } from './draft.ts';
import { followLog } from './follow-log.ts';
import { listLogDoubts } from './list-log-doubts.ts';
import { type CanOptions, findVehicle, START_LACK, toLine } from './read-can-log.ts';
import { summariseLog } from './summarise-log.ts';
import { needsStart } from './to-reading.ts';

/** What a CAN log would come to; nothing of it is stored. */
export interface CanLook {
  can: CanSummary;
  /** a line for each reading, also where vehicle or start are not known yet */
  lines: Line[];
  lacks: FieldError[];
  doubts: Doubt[];
}

/** Windows of half a year; what comes after is summarised and not shown. */
const MOST_LINES = 200_000;

/** `whole`: the log to its end, which lacks something where it breaks off. Else a beginning, cut after a line. */
export async function lookAtCanLog(
  chunks: AsyncIterable<Buffer>,
  options: CanOptions,
  whole: boolean,
): Promise<CanLook> {
  const log = followLog(options.windowS);
  const drafts: Draft[] = [];
  const collect = () => {
    for (const draft of log.takeDrafts()) if (drafts.length < MOST_LINES) drafts.push(draft);
  };
  const lacks: FieldError[] = [];
  try {
    for await (const chunk of chunks) {
      log.push(chunk);
      collect();
    }
    log.end(true);
  } catch (error) {
    if (!(error instanceof BodyFault)) throw error;
    if (whole) lacks.push({ field: '', message: error.message });
    log.end(false);
  }
  collect();

  const vins = [...new Set(log.vins().map(({ vin }) => normaliseVin(vin)))];
  const found = await findVehicle(vins, options.findUnits);
  const vehicle = options.vehicle ?? found.vehicle;
  if (options.vehicle === null && found.vehicle === null)
    lacks.push({ field: 'vehicle', message: whole ? found.lack : `${found.lack} in the part looked at` });
  if (options.startMs === null && drafts.some(needsStart))
    lacks.push({ field: 'start', message: START_LACK });
  const can = summariseLog(log);
  return {
    can,
    lines: drafts.map((draft) => toLine(draft, vehicle, options.startMs)),
    lacks,
    doubts: listLogDoubts(log, can, { given: options.vehicle, found, vins }),
  };
}
