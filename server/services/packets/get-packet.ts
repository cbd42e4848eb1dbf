import { listFindings, listPacketFiles } from '#db/queries/find-packet.ts';
import { findAssessment } from '#db/queries/list-assessments.ts';
import { findOpenBooking } from '#db/queries/lock-booking.ts';
import type { Packet } from '#server/contract/packets.ts';
import { toListedBooking } from '#server/services/bookings/to-listed-booking.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { findAtShop } from '#server/services/shop/send-to-shop.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { toLives } from '#server/services/vehicles/to-lives.ts';
import { vehicleSentence } from '#server/services/vehicles/vehicle-sentence.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { checkRepair } from './check-repair.ts';
import { coolerDueWords, coolerLacksWords } from './cooler-words.ts';
import { findPacket, mayReport, mayShare, readPacketVehicle } from './find-packet.ts';
import { guideParts } from './guide-parts.ts';
import { readJudgedPlatform } from './judged-platform.ts';
import { layOutSteps } from './lay-out-steps.ts';
import { listEarlierJobs } from './list-earlier-jobs.ts';
import type { StoredFlag, StoredReport } from './stored-packet.ts';
import { toClosing } from './to-closing.ts';
import { toFinding } from './to-finding.ts';
import { toPacketFile } from './to-packet-file.ts';
import { weighCooler } from './weigh-cooler.ts';

/** One packet with its evidence in words, its steps, what was found, and the report. */
export async function getPacket(ctx: Context, id: number, units: Units): Promise<Packet> {
  const { packet, shop, vehicle: own } = await findPacket(ctx, id);
  const now = ctx.now();
  const record = await readPacketVehicle(ctx.db, own.unit);
  const { vehicle, platform } = record;
  const [assessment, book, atShop, booking, judged, found, files, jobs, guide] = await Promise.all([
    findAssessment(ctx.db, vehicle.key, now),
    readCodeBook(ctx.db),
    findAtShop(ctx, vehicle.key),
    findOpenBooking(ctx.db, vehicle.key),
    readJudgedPlatform(ctx, platform),
    listFindings(ctx.db, [id]),
    listPacketFiles(ctx.db, id),
    listEarlierJobs(ctx, { packet: id, vehicle: vehicle.key, platform: vehicle.platform }),
    guideParts(ctx, platform),
  ]);
  const findings = found.map(toFinding);
  const report = packet.report as StoredReport;
  const cooler = weighCooler({ report, findings });
  const isOpen = packet.state === 'open';
  const settings = toEngineSettings(platform);
  return {
    id,
    vehicle: vehicle.unit,
    depot: packet.depot,
    depot_name: shop?.name ?? null,
    platform: vehicle.platform,
    platform_name: platform?.name ?? null,
    vin: vehicle.vin,
    state: packet.state,
    version: packet.version,
    opened_at: packet.openedAt.toISOString(),
    opened_by: packet.openedBy,
    may_report: isOpen && mayReport(ctx.actor),
    may_share: mayShare(ctx.actor),
    // Of a closed job both would be those of what comes after it, which is not for this shop.
    booking: booking === null || !isOpen ? null : toListedBooking(booking.row, booking.timeZone, now),
    note: isOpen ? (atShop?.note ?? booking?.row.note ?? null) : null,
    flag: (packet.flag as StoredFlag)[units],
    now: {
      grade: assessment?.grade ?? 'unknown',
      odometer_km: vehicle.odometerKm === null ? null : Math.round(vehicle.odometerKm),
      last_reading_at: vehicle.lastReadingAt?.toISOString() ?? null,
      sentence: vehicleSentence(assessment, settings.reference.dutyPct, units, book),
    },
    reference_duty_pct: settings.reference.dutyPct,
    lives: toLives(record),
    earlier: jobs.own,
    sisters: jobs.sisters,
    ...layOutSteps(findings, judged),
    cooler_due: {
      due: cooler.due.due,
      why: coolerDueWords(cooler.due, cooler.record),
      lacks: cooler.due.due ? coolerLacksWords(cooler.record.lacks) : '',
    },
    part_guide: guide,
    report,
    files: files.map(toPacketFile),
    closing: toClosing(packet, record.lives),
    after: await checkRepair(ctx, { packet, record }, units),
  };
}
