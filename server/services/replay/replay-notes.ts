/** What of a replay has to be said in words. */
interface Noted {
  known: { late: number; loaded: number; learned_every_days: number };
  /** on hold or book on the first day already */
  firstDay: number;
  /** askings after the event of their life */
  late: number;
  undecided: number;
  /** lives whose slip fell back to healthy with nothing on record */
  cutShort: number;
  /** whether vehicles of a platform were left out */
  isPart: boolean;
  /** failures within the first week */
  early: number;
  /** failures that are faults found by a shop */
  confirmed: number;
}

const times = (n: number, one: string, many: string): string =>
  `${n.toLocaleString('en-US')} ${n === 1 ? one : many}`;

/** What a reader must know of a replay, as sentences. */
export function noteReplay({
  known,
  firstDay,
  late,
  undecided,
  cutShort,
  isPart,
  early,
  confirmed,
}: Noted): string[] {
  const notes = [
    `Each day was run with what was known by its end (UTC); what the vehicles of a platform have in common was learned every ${known.learned_every_days} days, sooner while history was short or where many began to rise at once.`,
  ];
  notes.push(
    'Fittings and removals count from their own days, whenever they were entered, and limits, costs and trouble codes are those of today, or those tried.',
  );
  if (known.late > 0)
    notes.push(
      `${times(known.late, 'reading', 'readings')} arrived over a day late and counted from then on.`,
    );
  if (known.loaded > 0)
    notes.push(
      `${times(known.loaded, 'reading was', 'readings were')} loaded as history and counted from the moment of measurement, as if each had come at once.`,
    );
  if (firstDay > 0)
    notes.push(
      `${times(firstDay, 'vehicle was', 'vehicles were')} on hold or book on the first day already; each counts as asked for on that day, so notice may have been longer.`,
    );
  if (early > 0)
    notes.push(
      `${times(early, 'failure', 'failures')} came within the first week, before the list could give much notice.`,
    );
  if (late > 0)
    notes.push(
      `${times(late, 'inspection was', 'inspections were')} asked for in a life that had failed or reached its limit before: counted as right, and as no failure found.`,
    );
  if (undecided > 0)
    notes.push(
      `${times(undecided, 'inspection is', 'inspections are')} undecided: the vehicle has not driven the horizon since, or its converter was taken out before. Askings are judged with all readings up to now, also those after the last day.`,
    );
  notes.push(
    `Failures are what the records tell: a converter that ended as failed, a shop that found a fault, or slip at the limit on three stretches in a row. A failure counts as found where the list asked for the vehicle when it came, or not more than the horizon before it, and is saved in full, however short before. What is asked for without a break is another inspection after each horizon driven, with its own verdict and cost. Where a shop found no fault, the inspection was needless and is over: a failure after it is found only where it was asked for again.`,
  );
  if (confirmed > 0)
    notes.push(
      `${times(confirmed, 'failure is', 'failures are')} a fault that a shop found before slip was at the limit. Shops look where they are asked to, so this favours what they were asked by then: a rule that would have asked later counts as having missed it, and a fault where nobody looked is not known.`,
    );
  if (cutShort > 0)
    notes.push(
      `On ${times(cutShort, 'vehicle', 'vehicles')} slip fell back to healthy with no work on record, as after a converter that was changed and not reported: what was asked for before that is undecided. Enter the change to have it counted.`,
    );
  if (isPart)
    notes.push(
      'Only part of the fleet was looked at: evidence was set against these vehicles alone, so grades can differ a little from those of the whole list.',
    );
  return notes;
}
