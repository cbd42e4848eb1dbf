import { fieldUnits } from '#server/contract/field-units.ts';
import { type LineRule, lineRule, type RuleKind } from '#server/contract/intake.ts';
import type { MappedField } from '#server/contract/mappings.ts';
import { readingFields } from '#server/contract/readings.ts';

/** What stands in the form of a rule. */
export interface RuleDraft {
  kind: RuleKind;
  field: string;
  value: string;
  unit: string;
  times: string;
  plus: string;
  zone: string;
  find: string;
  with: string;
}

export const ruleWords: Record<RuleKind, string> = {
  leave_out: 'leave the field out',
  take_value: 'take a value for it',
  unit: 'read it in another unit',
  reckon: 'multiply and add',
  zone: 'take times in a zone',
  replace: "replace text in the vehicle's name",
};

const needed = ['vehicle', 'at', 'duty_pct'];
const metric: Record<string, MappedField> = {
  odometer_mi: 'odometer_km',
  fluid_f: 'fluid_c',
  speed_mph: 'speed_kmh',
};

export const unitsOf = (field: string): readonly string[] => {
  const own = metric[field] ?? field;
  return Object.hasOwn(fieldUnits, own) ? fieldUnits[own as MappedField] : [];
};

/** What may help with a fault of this field. */
export function kindsFor(field: string): RuleKind[] {
  if (field === 'at') return ['zone', 'take_value'];
  if (field === 'vehicle') return ['replace', 'take_value'];
  if (!readingFields.includes(field)) return ['take_value', 'zone', 'replace'];
  return [
    ...(needed.includes(field) ? [] : (['leave_out'] as const)),
    'take_value',
    ...(unitsOf(field).length === 0 ? [] : (['unit', 'reckon'] as const)),
  ];
}

export function newRuleDraft(field: string): RuleDraft {
  const [kind = 'take_value'] = kindsFor(field);
  return {
    kind,
    field: readingFields.includes(field) ? field : 'duty_pct',
    value: '',
    unit: unitsOf(field)[1] ?? '',
    times: '1',
    plus: '0',
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    find: '',
    with: '',
  };
}

/** The rule as the call takes it, or what is wrong with the form. */
export function toRule(draft: RuleDraft): { rule: LineRule; error: null } | { rule: null; error: string } {
  const { kind, field, unit, zone } = draft;
  const number = (text: string) => (text.trim() === '' ? Number.NaN : Number(text.replace(',', '.')));
  const made = lineRule.safeParse({
    kind,
    field,
    unit,
    zone,
    value: toValue(draft.value),
    times: number(draft.times),
    plus: number(draft.plus),
    find: draft.find,
    with: draft.with,
  });
  if (made.success) return { rule: made.data, error: null };
  const [issue] = made.error.issues;
  return { rule: null, error: `${issue?.path.join('.') ?? ''} ${issue?.message ?? 'is not right'}`.trim() };
}

function toValue(text: string): string | number | boolean {
  const plain = text.trim();
  if (plain === 'true' || plain === 'false') return plain === 'true';
  return /^[+-]?\d+([.,]\d+)?$/.test(plain) ? Number(plain.replace(',', '.')) : plain;
}
