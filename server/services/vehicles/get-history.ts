import { asc, eq } from 'drizzle-orm';
import { countRefusedLines } from '#db/queries/count-refused-lines.ts';
import { readTotals, type StretchTotalRow } from '#db/queries/read-totals.ts';
import type { VehicleRecord } from '#db/queries/read-vehicle-record.ts';
import { fleetEvents, gradeChanges } from '#db/schema/analysis.ts';
import type { VehicleHistory } from '#server/contract/vehicle.ts';
import type { Reason } from '#server/engine/assessment/assessment-model.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';
import { NO_PLATFORM } from '#server/services/assessment/learn-platform.ts';
import { listBookingEvents } from '#server/services/bookings/list-booking-events.ts';
import { type CodeBook, readCodeBook } from '#server/services/codes/code-book.ts';
import { joinSpellings } from '#server/services/codes/join-spellings.ts';
import type { Context } from '#server/services/context.ts';
import { matchAnswers } from '#server/services/intake-desk/match-answers.ts';
import { listPacketEvents } from '#server/services/packets/list-packet-events.ts';
import { listSendings } from '#server/services/shop/send-to-shop.ts';
import { codeWords, sightWords } from '#server/services/words/code-words.ts';
import { mileageWords, type Units, wayWords } from '#server/services/words/length-words.ts';
import { reasonWords } from '#server/services/words/reason-words.ts';
import { findVehicle } from './find-vehicle.ts';

type Event = VehicleHistory['events'][number];

/** A gateway that was silent for longer than this leaves a gap in the history. */
const QUIET_MS = 14 * 86_400_000;

/** Everything that happened to one vehicle, newest first. */
export async function getHistory(ctx: Context, unit: string, units: Units): Promise<VehicleHistory> {
  const record = await findVehicle(ctx, unit);
  const { vehicle } = record;
  const [totals, changes, events, refused, book, sent, booked, worked] = await Promise.all([
    readTotals(ctx.db, vehicle.key),
    ctx.db
      .select()
      .from(gradeChanges)
      .where(eq(gradeChanges.vehicle, vehicle.key))
      .orderBy(asc(gradeChanges.at)),
    ctx.db
      .select()
      .from(fleetEvents)
      .where(eq(fleetEvents.platform, vehicle.platform ?? NO_PLATFORM)),
    countRefusedLines(ctx.db, vehicle.unit),
    readCodeBook(ctx.db),
    listSendings(ctx, vehicle.key),
    listBookingEvents(ctx, vehicle.unit),
    listPacketEvents(ctx, vehicle.key, units),
  ]);
  const first = vehicle.firstReadingAt;
  const all: Event[] = [
    ...(first === null ? [] : [event(first, null, 'first_reading', 'First reading')]),
    ...lifeEvents(record, totals, units),
    ...changes.map((change) =>
      event(
        change.at,
        change.odometerKm,
        'grade_changed',
        gradeWords(change.from, change.to, change.why as Reason | null, units, book),
      ),
    ),
    ...codeEvents(totals, book),
    ...events
      .filter((one) => first !== null && one.at >= first)
      .map((one) =>
        event(
          one.at,
          null,
          'fleet_event',
          `All ${one.vehicles} vehicles of the platform moved by ${one.sizeRpm > 0 ? '+' : ''}${Math.round(one.sizeRpm)} rpm together`,
        ),
      ),
    ...record.steps.map((step) =>
      event(
        step.at,
        null,
        'odometer_step',
        `Odometer figures jump; ${wayWords(Math.abs(step.offsetKm), units)} ${step.offsetKm >= 0 ? 'are added' : 'are taken off'} from here on`,
      ),
    ),
    ...answerEvents(record),
    ...quietEvents(totals),
    ...shopEvents(sent, worked),
    ...worked.map(({ at, odometerKm, kind, text }) => event(at, odometerKm, kind, text)),
    ...booked.map(({ at, kind, text }) => event(at, null, kind, text)),
    ...refused.map(({ at, n }) =>
      event(at, null, 'refused_lines', `${n} ${n === 1 ? 'line was' : 'lines were'} refused and kept`),
    ),
  ];
  all.sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
  return { vehicle: vehicle.unit, events: all };
}

function event(at: Date, odometerKm: number | null, kind: Event['kind'], text: string): Event {
  return {
    at: at.toISOString(),
    odometer_km: odometerKm === null ? null : Math.round(odometerKm),
    kind,
    text,
  };
}

function gradeWords(
  from: string | null,
  to: string,
  why: Reason | null,
  units: Units,
  book: CodeBook,
): string {
  const change = from === null ? `First graded ${to}` : `Grade went from ${from} to ${to}`;
  return why === null ? change : `${change}: ${reasonWords(why, units, book)}`;
}

/**
 * A life without a date is dated by the stretch that holds its mileage; one from before the first reading has none,
 * and stands in the table of lives alone.
 */
function lifeEvents(record: VehicleRecord, totals: readonly StretchTotalRow[], units: Units): Event[] {
  const dateOf = (km: number) => {
    const at = totals.findIndex((total) => (total.stretch + 1) * STRETCH_KM > km);
    const found = totals[at];
    return found === undefined || (at === 0 && found.stretch * STRETCH_KM > km) ? null : found.firstAt;
  };
  return record.lives.flatMap((life) => {
    const events: Event[] = [];
    const fittedAt = life.fittedAt ?? dateOf(life.fittedKm);
    const from = life.supplier === null ? '' : `, from ${life.supplier}`;
    const ran = life.runKm ? `, had run ${mileageWords(life.runKm, units)} before` : '';
    if (fittedAt !== null && life.fittedKm > 0)
      events.push(
        event(fittedAt, life.fittedKm, 'life_began', `Converter fitted: ${life.source}${from}${ran}`),
      );
    const removedAt = life.removedAt ?? (life.removedKm === null ? null : dateOf(life.removedKm));
    if (life.removedKm !== null && removedAt !== null) {
      const ended = { failed: 'it had failed', preventive: 'before it failed', retired: 'retired' };
      const how = life.ended === null ? '' : `, ${ended[life.ended]}`;
      const mode = life.mode === null ? '' : ` (${life.mode})`;
      const ran = wayWords(life.removedKm - life.fittedKm, units);
      events.push(
        event(removedAt, life.removedKm, 'life_ended', `Converter removed after ${ran}${how}${mode}`),
      );
    }
    return events;
  });
}

function codeEvents(totals: readonly StretchTotalRow[], book: CodeBook): Event[] {
  const sights = totals.flatMap((total) =>
    Object.entries(total.codes).map(([code, sight]) => ({ code, ...sight })),
  );
  return joinSpellings(sights).map(({ code, n, first, last }) =>
    event(
      new Date(first),
      null,
      'code_seen',
      n === 1
        ? `${codeWords(book, code)} seen once`
        : `${codeWords(book, code)} first seen; ${sightWords(n, Date.parse(last))}`,
    ),
  );
}

/** A vehicle that left the shop with its job is told of by the job. */
function shopEvents(
  sent: Awaited<ReturnType<typeof listSendings>>,
  worked: readonly { at: Date; kind: Event['kind'] }[],
): Event[] {
  const closedAt = new Set(
    worked.filter(({ kind }) => kind === 'packet_closed').map(({ at }) => at.getTime()),
  );
  return sent.flatMap(({ depot, sentAt, sentBy, note, endedAt, endedBy }) => [
    event(
      sentAt,
      null,
      'sent_to_shop',
      `Sent to the shop of ${depot} by ${sentBy}${note === null ? '' : `: ${note.replace(/\n+/g, ' ')}`}`,
    ),
    ...(endedAt === null || closedAt.has(endedAt.getTime())
      ? []
      : [event(endedAt, null, 'called_back', `Called back from the shop of ${depot} by ${endedBy}`)]),
  ]);
}

function answerEvents({ steps, answers }: VehicleRecord): Event[] {
  const said = {
    changed: 'the instrument was changed or set',
    misread: 'the figures were wrong for a while',
  };
  return [...matchAnswers(steps, answers)].map(([step, { answer, note, answeredAt, answeredBy }]) =>
    event(
      answeredAt,
      null,
      'odometer_answer',
      `Of the jump of odometer figures on ${step.at.toISOString().slice(0, 10)} ${answeredBy} says: ${said[answer]}${note === '' ? '' : `. ${note.replace(/\n+/g, ' ')}`}`,
    ),
  );
}

function quietEvents(totals: readonly StretchTotalRow[]): Event[] {
  return totals.slice(1).flatMap((total, i) => {
    const before = totals[i];
    if (before === undefined || total.firstAt.getTime() - before.lastAt.getTime() < QUIET_MS) return [];
    const days = Math.round((total.firstAt.getTime() - before.lastAt.getTime()) / 86_400_000);
    return [event(before.lastAt, null, 'gateway_quiet', `No readings for ${days} days`)];
  });
}
