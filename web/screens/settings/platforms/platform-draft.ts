import type { Platform } from '#server/contract/fleet.ts';
import type { PreviewRequest } from '#server/contract/settings.ts';
import { celsiusFromFahrenheit, kmFromMiles } from '#server/contract/units.ts';
import type { PlatformChange } from '#web/api/use-save-platform.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import { temperatureUnit, toReaderTemperature } from '#web/format/format-temperature.ts';
import { type NumberRead, type NumberRule, readNumber } from '#web/format/read-number.ts';
import type { Units } from '#web/format/units.ts';
import { applyShopChange, readShopDraft, type ShopField, toShopDraft } from './shop-groups.ts';

export const costFields = ['road_failure', 'planned_repair', 'inspection', 'lost_day'] as const;
const figureFields = [
  'limit_rpm',
  ...costFields,
  'inspection_hours',
  'duty_pct',
  'load_pct',
  'fluid_c',
] as const;
export type FigureField = (typeof figureFields)[number];

/** What stands in the fields, in the reader's units; an empty life is not known. */
export type PlatformDraft = Record<FigureField | ShopField | 'id' | 'name' | 'life_km', string>;
export type PlatformFaults = Partial<Record<keyof PlatformDraft, string>>;

/** A platform before anybody has said anything: the server's own defaults. */
export const newPlatform: Platform = {
  id: '',
  name: '',
  limit_rpm: 150,
  band_edges_pct: [],
  reference: { duty_pct: 85, load_pct: 50, fluid_c: 85 },
  gate: {
    low_load_pct: 15,
    overrun_slip_rpm: -15,
    low_speed_kmh: 30,
    cold_fluid_c: 55,
    hot_fluid_c: 125,
    duty_step_pct: 5,
    duty_window_s: 30,
  },
  life_km: null,
  solenoid: null,
  converter: null,
  reference_torque_nm: null,
  costs: { road_failure: 9000, planned_repair: 3200, inspection: 120, lost_day: 60 },
  inspection_hours: 3,
};

const tidyNumber = (value: number): number => Math.round(value * 10) / 10;
const tidy = (value: number): string => String(tidyNumber(value));

export function toDraft(
  { reference, costs, life_km: life, ...platform }: Platform,
  units: Units,
): PlatformDraft {
  return {
    id: platform.id,
    name: platform.name,
    limit_rpm: String(platform.limit_rpm),
    life_km: life === null ? '' : String(Math.round(toReaderDistance(life, units))),
    inspection_hours: String(platform.inspection_hours),
    road_failure: String(costs.road_failure),
    planned_repair: String(costs.planned_repair),
    inspection: String(costs.inspection),
    lost_day: String(costs.lost_day),
    duty_pct: tidy(reference.duty_pct),
    load_pct: tidy(reference.load_pct),
    fluid_c: tidy(toReaderTemperature(reference.fluid_c, units)),
    ...toShopDraft(platform),
  };
}

const money: NumberRule = { least: 0, most: 10_000_000 };
const percent: NumberRule = { least: 0, most: 100, unit: '%' };

function ruleOf(field: FigureField, units: Units): NumberRule {
  switch (field) {
    case 'limit_rpm':
      return { least: 1, most: 5000, unit: 'rpm' };
    case 'inspection_hours':
      return { least: 0.25, most: 24, step: 0.25, unit: 'h' };
    case 'duty_pct':
    case 'load_pct':
      return percent;
    case 'fluid_c':
      return {
        least: Math.round(toReaderTemperature(-40, units)),
        most: Math.round(toReaderTemperature(200, units)),
        unit: temperatureUnit(units),
      };
    default:
      return money;
  }
}

const idShape = /^[\p{L}\p{N}][\p{L}\p{N} ._/-]*$/u;

/** What of a stored platform the fields change, or what is wrong with each. A field left as it was changes nothing. */
export function readDraft(
  draft: PlatformDraft,
  before: Platform,
  units: Units,
  taken: readonly string[] = [],
): { change: PlatformChange | null; faults: PlatformFaults; touched: boolean } {
  const isNew = before.id === '';
  const shown = toDraft(before, units);
  const faults: PlatformFaults = {};
  const figures: Partial<Record<FigureField, number>> = {};
  const put = <K extends keyof PlatformDraft>(field: K, read: NumberRead): number | null => {
    if (read.fault !== undefined) faults[field] = read.fault;
    return read.value;
  };
  for (const field of figureFields) {
    if (!isNew && draft[field].trim() === shown[field]) continue;
    const value = put(field, readNumber(draft[field], { ...ruleOf(field, units), decimalComma: true }));
    if (value !== null)
      figures[field] =
        field === 'fluid_c' && units.temperature === 'F' ? tidyNumber(celsiusFromFahrenheit(value)) : value;
  }
  if (draft.limit_rpm.trim() !== '' && Number(draft.limit_rpm) === 0)
    faults.limit_rpm = 'Above 0: at a limit of 0 every clutch counts as failed.';
  const life = readLife(draft, shown, units, faults);
  const shop = readShopDraft(draft, before, faults);
  const name = draft.name.trim();
  const id = isNew ? draft.id.trim() : before.id;
  if (name === '') faults.name = 'A name is needed.';
  if (id === '') faults.id = 'An id is needed.';
  else if (isNew && taken.includes(id)) faults.id = 'Another platform has this id.';
  else if (!idShape.test(id))
    faults.id = 'It begins with a letter or digit and holds letters, digits, space . _ / - alone.';
  const touched = JSON.stringify(draft) !== JSON.stringify(shown);
  if (Object.keys(faults).length > 0) return { change: null, faults, touched };
  return { change: { id, name, ...life, ...groupFigures(figures), ...shop }, faults, touched };
}

const MOST_LIFE_KM = 5_000_000;

function readLife(
  draft: PlatformDraft,
  shown: PlatformDraft,
  units: Units,
  faults: PlatformFaults,
): { life_km?: number | null } {
  if (draft.life_km.trim() === shown.life_km) return {};
  if (draft.life_km.trim() === '') return { life_km: null };
  const most = Math.round(toReaderDistance(MOST_LIFE_KM, units));
  const { value, fault } = readNumber(draft.life_km, { least: 1, most, unit: units.distance });
  if (fault !== undefined) faults.life_km = fault;
  return value === null ? {} : { life_km: units.distance === 'mi' ? Math.round(kmFromMiles(value)) : value };
}

function groupFigures(figures: Partial<Record<FigureField, number>>): Omit<PlatformChange, 'id' | 'name'> {
  const pick = (fields: readonly FigureField[]) =>
    Object.fromEntries(
      fields.flatMap((field) => (figures[field] === undefined ? [] : [[field, figures[field]]])),
    );
  const costs = pick(costFields);
  const reference = pick(['duty_pct', 'load_pct', 'fluid_c']);
  return {
    ...pick(['limit_rpm', 'inspection_hours']),
    ...(Object.keys(costs).length === 0 ? {} : { costs }),
    ...(Object.keys(reference).length === 0 ? {} : { reference }),
  };
}

/** A platform as a change leaves it. */
export const applyChange = (before: Platform, change: PlatformChange): Platform => ({
  ...before,
  name: change.name,
  limit_rpm: change.limit_rpm ?? before.limit_rpm,
  life_km: change.life_km === undefined ? before.life_km : change.life_km,
  inspection_hours: change.inspection_hours ?? before.inspection_hours,
  costs: { ...before.costs, ...change.costs },
  reference: { ...before.reference, ...change.reference },
  ...applyShopChange(before, change),
});

/** What of a change the list can be tried with; null where it moves nothing in it. */
export function toPreview(change: PlatformChange | null, before: Platform): PreviewRequest | null {
  if (change === null || before.id === '') return null;
  const { limit_rpm, life_km, costs } = change;
  if (limit_rpm === undefined && life_km === undefined && costs === undefined) return null;
  return {
    platform: {
      id: before.id,
      ...(limit_rpm === undefined ? {} : { limit_rpm }),
      ...(life_km === undefined ? {} : { life_km }),
      ...(costs === undefined ? {} : { costs: { ...before.costs, ...costs } }),
    },
  };
}

/** What is allowed and yet likely a slip. */
export function warnOf(change: PlatformChange | null, before: Platform): string | null {
  const { road_failure: road, planned_repair: planned } = { ...before.costs, ...change?.costs };
  if (planned < road) return null;
  return planned === road
    ? 'A failure on the road costs no more than a planned repair: inspecting then never pays, and the chance of a failure no longer moves the list.'
    : 'A planned repair costs more than a failure on the road: inspecting then never pays, and the likelier a failure, the lower the vehicle stands in the list.';
}
