import { z } from 'zod';
import { listedBooking } from './bookings.ts';
import { depotId } from './fleet.ts';
import { distance, interval } from './ranking.ts';
import { moment, plainText, vehicleUnit } from './readings.ts';
import { closing, repairCheck, reportContent } from './repair.ts';
import { finding, treeNode } from './test-steps.ts';
import { life } from './vehicle.ts';
import {
  causes,
  findingResults,
  grades,
  outcomes,
  packetStates,
  patterns,
  testSteps,
  verdicts,
} from './words.ts';

export const packetRequest = z
  .strictObject({
    vehicle: vehicleUnit,
    depot: depotId.optional().meta({
      description:
        'whose shop does the work; where the vehicle was sent, is booked or belongs where left out',
    }),
  })
  .meta({ id: 'PacketRequest' });

/** Why the vehicle was flagged, as it stood when the packet was opened. */
export const packetFlag = z
  .object({
    at: moment,
    grade: z.enum(grades),
    odometer_km: z.number().nullable(),
    sentence: z.string(),
    reasons: z.array(z.string()),
    pattern: z.enum(patterns),
    pattern_words: z.string(),
    reference_slip_rpm: z.number().nullable(),
    baseline_rpm: z.number().nullable(),
    limit_rpm: z.number(),
    drift_rpm_per_1000km: interval.nullable(),
    chance_within_horizon: z.number().nullable(),
    horizon_km: z.number(),
    km_to_limit: distance,
    codes: z.array(
      z.object({
        code: z.string(),
        meaning: z.string(),
        n: z.int(),
        first_at: moment,
        last_at: moment,
        names_clutch: z.boolean(),
      }),
    ),
  })
  .meta({ id: 'PacketFlag' });
export type PacketFlag = z.infer<typeof packetFlag>;

/** What a job came to, on this vehicle or on one of the same platform. */
export const earlierJob = z
  .object({
    packet: z.int().nullable().meta({ description: 'null where who asks may not open it' }),
    vehicle: z.string().nullable().meta({ description: 'null where who asks does not see that vehicle' }),
    closed_at: moment,
    odometer_km: z.number(),
    converter_km: z.number().nullable().meta({
      description: 'what the converter had run, before its fitting here too where that is on record',
    }),
    outcome: z.enum(outcomes),
    cause: z.enum(causes).nullable(),
    words: z.string().meta({ description: 'cause, or what came of it, in words' }),
    flagged_slip_rpm: z.number().nullable(),
    findings: z.array(z.object({ step: z.enum(testSteps), verdict: z.enum(verdicts), words: z.string() })),
  })
  .meta({ id: 'EarlierJob' });
export type EarlierJob = z.infer<typeof earlierJob>;

export const packetStep = z
  .object({
    step: z.enum(testSteps),
    title: z.string(),
    what_for: z.string(),
    how: z.array(z.string()),
    cautions: z.array(z.string()),
    state: z.enum(['next', 'open', 'done', 'not_needed']).meta({
      description: 'not_needed: what was found so far leads past it; it may still be done',
    }),
    why: z.string().nullable().meta({ description: 'why it is not needed, or why it is next' }),
    finding: finding.nullable().meta({ description: 'the last one of this step' }),
    earlier: z.array(finding).meta({ description: 'those that it replaced, newest first' }),
    expected: z.string().nullable().meta({
      description: 'the figure to expect on this platform, with its arithmetic; null where there is none',
    }),
  })
  .meta({ id: 'PacketStep' });
export type PacketStep = z.infer<typeof packetStep>;

export const packetFile = z
  .object({
    id: z.int(),
    kind: z.enum(['photo', 'trace']),
    name: plainText,
    type: z.string(),
    bytes: z.int(),
    added_at: moment,
    added_by: z.string(),
  })
  .meta({ id: 'PacketFile' });
export type PacketFile = z.infer<typeof packetFile>;

export const packetLink = z
  .object({
    id: z.int(),
    label: z.string().meta({ description: 'whom it is for' }),
    may_report: z.boolean().meta({ description: 'may record findings and close the job' }),
    made_at: moment,
    made_by: z.string(),
    expires_at: moment,
    revoked_at: moment.nullable(),
    revoked_by: z.string().nullable(),
    state: z.enum(['works', 'expired', 'revoked']),
    openings: z
      .array(z.object({ at: moment, from: z.string().nullable(), what: z.string(), browser: z.string() }))
      .meta({ description: 'newest first' }),
  })
  .meta({ id: 'PacketLink' });
export type PacketLink = z.infer<typeof packetLink>;

export const packetLinkRequest = z
  .strictObject({
    label: plainText.trim().min(1, { error: 'must say whom the link is for' }).max(120),
    days: z.int().min(1).max(90).default(14),
    may_report: z.boolean().default(false),
  })
  .meta({ id: 'PacketLinkRequest' });

export const newPacketLink = z
  .object({
    link: packetLink,
    address: z.string().meta({ description: 'shown this once; whoever has it sees this vehicle' }),
  })
  .meta({ id: 'NewPacketLink' });
export type NewPacketLink = z.infer<typeof newPacketLink>;

/** What a converter costs here, and what cutting the old one open would. */
export const partGuide = z
  .object({
    price: z.number().nullable(),
    core_deposit: z.number().nullable(),
    supplier: z.string().nullable(),
    spare_cores: z.int(),
    known_from: z.string().nullable().meta({ description: 'where the figures are from, in words' }),
    cutting_costs: z.number().nullable().meta({ description: '0 where a spare core is at hand' }),
    words: z.string(),
  })
  .meta({ id: 'PartGuide' });
export type PartGuide = z.infer<typeof partGuide>;

export const packet = z
  .object({
    id: z.int(),
    vehicle: z.string(),
    depot: z.string().nullable().meta({ description: 'whose shop does the work' }),
    depot_name: z.string().nullable(),
    platform: z.string().nullable(),
    platform_name: z.string().nullable(),
    vin: z.string().nullable(),
    state: z.enum(packetStates),
    version: z.int(),
    opened_at: moment,
    opened_by: z.string(),
    may_report: z.boolean().meta({ description: 'whether who asks may record findings and close' }),
    may_share: z.boolean().meta({ description: 'whether who asks may make links' }),
    booking: listedBooking.nullable(),
    note: z.string().nullable().meta({ description: 'of the planner to the shop' }),
    flag: packetFlag,
    now: z
      .object({
        grade: z.enum(grades),
        odometer_km: z.number().nullable(),
        last_reading_at: moment.nullable(),
        sentence: z.string(),
      })
      .meta({ description: 'how it stands now' }),
    reference_duty_pct: z.number(),
    lives: z.array(life),
    earlier: z.array(earlierJob).meta({ description: 'on this vehicle, newest first' }),
    sisters: z.array(earlierJob).meta({ description: 'on others of its platform, newest first, at most 12' }),
    cautions: z.array(z.string()),
    steps: z.array(packetStep),
    tree: z.object({
      nodes: z.array(treeNode),
      path: z
        .array(z.object({ node: z.string(), result: z.enum(findingResults).nullable() }))
        .meta({ description: 'from the root; the last has no result where it is the step to do, or an end' }),
    }),
    also_found: z
      .array(z.object({ step: z.enum(testSteps), words: z.string() }))
      .meta({ description: 'what was found in steps that the way through the tree does not ask for' }),
    cooler_due: z.object({
      due: z.boolean(),
      why: z.string(),
      lacks: z
        .string()
        .meta({ description: 'what its record lacks, in words; empty where nothing, or not due' }),
    }),
    part_guide: partGuide,
    report: reportContent,
    files: z.array(packetFile),
    closing: closing.nullable(),
    after: repairCheck
      .nullable()
      .meta({ description: 'null while the job is open, or nothing was repaired' }),
  })
  .meta({ id: 'Packet' });
export type Packet = z.infer<typeof packet>;

/** A packet as a line of a list. */
export const listedPacket = z
  .object({
    id: z.int(),
    vehicle: z.string(),
    depot: z.string().nullable(),
    depot_name: z.string().nullable(),
    platform: z.string().nullable(),
    state: z.enum(packetStates),
    opened_at: moment,
    opened_by: z.string(),
    grade: z.enum(grades).meta({ description: 'when it was opened' }),
    sentence: z.string().meta({ description: 'when it was opened' }),
    booking: listedBooking.nullable(),
    findings: z.int(),
    next: z.string().nullable().meta({ description: 'what is to be done next, in words' }),
    closing: closing.nullable(),
    after: repairCheck.nullable(),
  })
  .meta({ id: 'ListedPacket' });
export type ListedPacket = z.infer<typeof listedPacket>;

export const packetQuery = z.object({
  state: z.enum(packetStates).optional(),
  vehicle: vehicleUnit.optional(),
  depot: depotId.optional(),
  limit: z.coerce.number().int().min(1).max(200).default(50),
});

export const packetList = z
  .object({ total: z.int(), packets: z.array(listedPacket) })
  .meta({ id: 'PacketList', description: 'newest first' });
export type PacketList = z.infer<typeof packetList>;
