import type { Platform } from '#server/contract/fleet.ts';
import { type NumberRule, readNumber } from '#web/format/read-number.ts';

/** Two groups of a platform for the test steps of the shop. Each may be empty as a whole: it is not known then. */
export const shopGroups = {
  solenoid: ['ohm', 'supply_v', 'wiring_ohm', 'tolerance_pct'],
  converter: ['price', 'core_deposit', 'spare_cores'],
} as const;
type Group = keyof typeof shopGroups;
export type ShopField = (typeof shopGroups)[Group][number];

const money: NumberRule = { least: 0, most: 10_000_000 };
const rules: Record<ShopField, NumberRule> = {
  ohm: { least: 0.01, most: 1000, unit: 'ohm' },
  supply_v: { least: 0.1, most: 100, unit: 'V' },
  wiring_ohm: { least: 0, most: 100, unit: 'ohm' },
  tolerance_pct: { least: 1, most: 90, unit: '%' },
  price: money,
  core_deposit: money,
  spare_cores: { least: 0, most: 1000, step: 1 },
};

/** What an empty field stands for where its group is filled in: the server's own defaults. */
export const usualFigures = { wiring_ohm: 0.5, tolerance_pct: 25, spare_cores: 0 } as const;
const usual: Partial<Record<ShopField, number>> = usualFigures;

export type ShopDraft = Record<ShopField, string>;
export type ShopFaults = Partial<Record<ShopField, string>>;
export type ShopChange = {
  [G in Group]?: Partial<NonNullable<Platform[G]>> | null;
};

const show = (value: number | undefined): string => (value === undefined ? '' : String(value));

export function toShopDraft({ solenoid, converter }: Pick<Platform, Group>): ShopDraft {
  return {
    ohm: show(solenoid?.ohm),
    supply_v: show(solenoid?.supply_v),
    wiring_ohm: show(solenoid?.wiring_ohm),
    tolerance_pct: show(solenoid?.tolerance_pct),
    price: show(converter?.price),
    core_deposit: show(converter?.core_deposit),
    spare_cores: show(converter?.spare_cores),
  };
}

/** What the fields of both groups change; what is wrong with them is told in `faults`. */
export function readShopDraft(
  draft: ShopDraft,
  before: Pick<Platform, Group>,
  faults: Partial<Record<string, string>>,
): ShopChange {
  const shown = toShopDraft(before);
  const change: ShopChange = {};
  for (const group of ['solenoid', 'converter'] as const) {
    const fields: readonly ShopField[] = shopGroups[group];
    const stored = before[group];
    if (fields.every((field) => draft[field].trim() === shown[field])) continue;
    if (fields.every((field) => draft[field].trim() === '')) {
      change[group] = null;
      continue;
    }
    change[group] = Object.fromEntries(
      fields.flatMap((field): [ShopField, number][] => {
        const typed = draft[field].trim();
        if (stored !== null && typed === shown[field]) return [];
        const value = readFigure(field, typed, fields.length, faults);
        return value === null ? [] : [[field, value]];
      }),
    );
  }
  return change;
}

function readFigure(
  field: ShopField,
  typed: string,
  fields: number,
  faults: Partial<Record<string, string>>,
): number | null {
  const unsaid = usual[field];
  if (typed === '' && unsaid !== undefined) return unsaid;
  const { value, fault } = readNumber(typed, { ...rules[field], decimalComma: true });
  if (fault !== undefined)
    faults[field] = typed === '' ? `A figure is needed, or leave all ${fields} empty.` : fault;
  return value;
}

/** Both groups as a change leaves them. */
export const applyShopChange = (
  before: Pick<Platform, Group>,
  { solenoid, converter }: ShopChange,
): Pick<Platform, Group> => ({
  solenoid:
    solenoid === undefined
      ? before.solenoid
      : solenoid && { ...emptySolenoid, ...before.solenoid, ...solenoid },
  converter:
    converter === undefined
      ? before.converter
      : converter && { ...emptyConverter, ...before.converter, ...converter },
});

const emptySolenoid = { ohm: 0, supply_v: 0, wiring_ohm: 0.5, tolerance_pct: 25 };
const emptyConverter = { price: 0, core_deposit: 0, spare_cores: 0 };

/** The solenoid as the fields have it, stored or not; undefined while a figure of it is wrong or missing. */
export function readSolenoid(
  draft: ShopDraft,
  before: Pick<Platform, Group>,
): Platform['solenoid'] | undefined {
  const faults: ShopFaults = {};
  const { solenoid } = applyShopChange(before, readShopDraft(draft, before, faults));
  return shopGroups.solenoid.some((field) => faults[field] !== undefined) ? undefined : solenoid;
}
