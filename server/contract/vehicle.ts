import { z } from 'zod';
import { listedBooking } from './bookings.ts';
import { unavailability } from './calendar.ts';
import { depotId } from './fleet.ts';
import { distance, interval, rankingRow } from './ranking.ts';
import { moment, plainLines } from './readings.ts';
import { lifeEndings, lifeSources, setAsideReasons } from './words.ts';

const nullableNumber = z.number().nullable();

export const life = z
  .object({
    life: z.int().meta({ description: 'number of the life within the vehicle, from 1' }),
    fitted_km: z.number(),
    fitted_at: moment.nullable(),
    source: z.enum(lifeSources).nullable().meta({ description: 'null where nobody registered the life' }),
    removed_km: nullableNumber,
    removed_at: moment.nullable(),
    ended: z.enum(lifeEndings).nullable(),
    mode: z.string().nullable(),
    supplier: z.string().nullable(),
    run_km: nullableNumber.meta({
      description: 'what the converter had run before it was fitted here; null where nobody has said',
    }),
  })
  .meta({ id: 'Life' });
export type Life = z.infer<typeof life>;

export const atShop = z
  .object({
    depot: z.string(),
    depot_name: z.string(),
    sent_at: moment,
    sent_by: z.string(),
    note: z.string().nullable(),
  })
  .meta({ id: 'AtShop', description: 'the shop that the vehicle was sent to' });
export type AtShop = z.infer<typeof atShop>;

export const shopRequest = z
  .object({
    depot: depotId.meta({ description: 'whose shop is to see the vehicle' }),
    note: plainLines.max(500).nullable().default(null),
  })
  .meta({ id: 'ShopRequest' });

export const vehicleDetail = z
  .object({
    vehicle: z.string(),
    depot: z.string().nullable(),
    depot_name: z.string().nullable(),
    platform: z.string().nullable(),
    platform_name: z.string().nullable(),
    vin: z.string().nullable(),
    retired: z.boolean(),
    first_reading_at: moment.nullable(),
    last_reading_at: moment.nullable(),
    odometer_km: nullableNumber,
    sentence: z.string().meta({ description: 'what the readings say, in one sentence' }),
    pattern_words: z.string().meta({ description: 'what the pattern is consistent with' }),
    assessment: rankingRow.nullable(),
    lives: z.array(life),
    shop: atShop.nullable().meta({ description: 'null while no shop has it' }),
    unavailable: z.array(unavailability).meta({ description: 'days on which it cannot be taken' }),
    booking: listedBooking.nullable().meta({ description: 'its open booking' }),
    without_notice: z.string().nullable().meta({
      description:
        'chance of a failure without notice and what it rests on, as a sentence; null where no life of its platform is known',
    }),
    questions: z.array(z.string()).meta({ description: 'what somebody should answer, in words' }),
  })
  .meta({ id: 'Vehicle' });
export type VehicleDetail = z.infer<typeof vehicleDetail>;

export const seriesPoint = z.object({
  life: z.int(),
  odometer_km: z.number(),
  at: moment,
  slip_rpm: z
    .number()
    .meta({ description: 'slip at the reference point, movement of the whole platform taken out' }),
  measured_rpm: z.number().meta({ description: 'slip as measured, robust mean of the stretch' }),
  spread_rpm: z.number().meta({ description: 'standard error of slip_rpm' }),
  weight: z.number().meta({ description: 'effective number of readings' }),
  duty_pct: z.number(),
  fluid_c: nullableNumber.meta({ description: 'null where the feed has no fluid temperature' }),
  load_pct: nullableNumber.meta({ description: 'null where the feed has no load' }),
});
export type SeriesPoint = z.infer<typeof seriesPoint>;

export const seriesFit = z.object({
  life: z.int(),
  from_km: z.number(),
  to_km: z.number(),
  baseline_rpm: interval,
  onset_km: interval.nullable(),
  drift_rpm_per_1000km: interval.nullable(),
  line: z.array(z.tuple([z.number(), z.number()])).meta({ description: 'odometer km and fitted rpm' }),
});
export type SeriesFit = z.infer<typeof seriesFit>;

export const bandSeries = z.object({
  band: z.string().meta({ description: "'reference', or the command band such as '70-85'" }),
  duty_from_pct: nullableNumber,
  duty_to_pct: nullableNumber,
  points: z.array(seriesPoint),
  fits: z.array(seriesFit),
});
export type BandSeries = z.infer<typeof bandSeries>;

export const forecastPoint = z.object({
  odometer_km: z.number(),
  p2_5: z.number(),
  p10: z.number(),
  p25: z.number(),
  p50: z.number(),
  p75: z.number(),
  p90: z.number(),
  p97_5: z.number(),
});

export const dutyPoint = z.object({
  duty_pct: z.number(),
  slip_rpm: z.number(),
  low: z.number(),
  high: z.number(),
  n: z.int(),
});

export const histogramBin = z.object({ from: nullableNumber, to: nullableNumber, share: z.number() });

export const vehicleSeries = z
  .object({
    vehicle: z.string(),
    odometer_km: nullableNumber,
    reference: z.object({ duty_pct: z.number(), load_pct: z.number(), fluid_c: z.number() }),
    limit_rpm: z.number(),
    horizon_km: z.number(),
    lives: z.array(life),
    series: z
      .array(bandSeries)
      .meta({ description: 'the series at the reference point first, then one per command band' }),
    forecast: z
      .object({
        points: z.array(forecastPoint),
        km_to_limit: distance,
        accelerating_weight: z
          .number()
          .meta({ description: 'weight of accelerating against linear growth, 0 to 1' }),
      })
      .nullable(),
    by_duty: z
      .object({
        healthy_km: z.tuple([z.number(), z.number()]),
        now_km: z.tuple([z.number(), z.number()]),
        healthy: z.array(dutyPoint),
        now: z.array(dutyPoint),
      })
      .nullable()
      .meta({
        description: 'slip against commanded duty in the healthy part of the life and in the last kilometres',
      }),
    exposure: z.object({
      fluid_c: z
        .array(histogramBin)
        .nullable()
        .meta({ description: 'null where no usable reading has a fluid temperature' }),
      load_pct: z
        .array(histogramBin)
        .nullable()
        .meta({ description: 'null where no usable reading has a load' }),
      clutch_heat_mj_per_1000km: nullableNumber.meta({
        description: 'null where torque or speed is not known',
      }),
      hot_from_c: z.number().meta({ description: 'fluid from here on counts as hot' }),
      hot_share: nullableNumber.meta({ description: 'share of usable readings with hot fluid, 0 to 1' }),
      platform: z
        .object({
          clutch_heat_mj_per_1000km: nullableNumber,
          heat_vehicles: z.int(),
          hot_share: nullableNumber,
          hot_vehicles: z.int(),
        })
        .nullable()
        .meta({
          description:
            'medians over the vehicles of the platform, each in the converter fitted now, as last learned; null without a platform',
        }),
    }),
    set_aside: z.array(
      z.object({ odometer_km: z.number(), month: z.string(), reason: z.enum(setAsideReasons), n: z.int() }),
    ),
    readings: z.object({ usable: z.int(), set_aside: z.int() }),
    fleet_events: z.array(z.object({ at: moment, odometer_km: nullableNumber, size_rpm: z.number() })),
    notes: z.array(z.string()).meta({ description: 'what the feed lacks and what that costs' }),
  })
  .meta({ id: 'VehicleSeries' });
export type VehicleSeries = z.infer<typeof vehicleSeries>;

export const historyKinds = [
  'first_reading',
  'life_began',
  'life_ended',
  'grade_changed',
  'code_seen',
  'fleet_event',
  'odometer_step',
  'odometer_answer',
  'gateway_quiet',
  'refused_lines',
  'sent_to_shop',
  'called_back',
  'booked',
  'booking_moved',
  'booking_put_off',
  'booking_cancelled',
  'booking_done',
  'packet_opened',
  'finding_recorded',
  'part_fitted',
  'packet_closed',
  'core_noted',
  'link_made',
  'link_revoked',
] as const;

export const historyEvent = z.object({
  at: moment,
  odometer_km: nullableNumber,
  kind: z.enum(historyKinds),
  text: z.string(),
});

export const vehicleHistory = z
  .object({ vehicle: z.string(), events: z.array(historyEvent) })
  .meta({ id: 'VehicleHistory', description: 'Everything that happened to the vehicle, newest first' });
export type VehicleHistory = z.infer<typeof vehicleHistory>;
