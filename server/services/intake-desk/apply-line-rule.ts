import { fieldUnits } from '#server/contract/field-units.ts';
import type { LineRule } from '#server/contract/intake.ts';
import type { FileUnit, MappedField } from '#server/contract/mappings.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Line } from '#server/services/intake/line.ts';
import { cutFigure } from '#server/services/intake/mapped/read-figure.ts';
import { createTimeTextReader } from '#server/services/intake/mapped/read-time-text.ts';
import { toOwnUnit } from '#server/services/intake/mapped/to-own-unit.ts';
import { unitOf } from '#server/services/intake/mapped/unit-words.ts';
import { createZoneClock, isZone } from '#server/services/intake/mapped/zone-clock.ts';

type Fields = Record<string, unknown>;
/** The same fields as a rule makes them. */
type Change = (fields: Fields) => Fields;

/** Fields that say the same in another unit: a value put right goes into the first. */
const metric: Record<string, MappedField> = {
  odometer_mi: 'odometer_km',
  fluid_f: 'fluid_c',
  speed_mph: 'speed_kmh',
};

/** What a rule does to the line of a refused reading. What it makes is checked as any other afterwards. */
export function createLineRule(rule: LineRule): (line: Line) => Line {
  const change = toChange(rule);
  const field = 'field' in rule ? rule.field : rule.kind === 'zone' ? 'at' : 'vehicle';
  return (line) => {
    const { value } = line;
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return line;
    // What was at fault before the rule is put right only where the rule had a value to work on, or needs none.
    const isSolved = rule.kind === 'leave_out' || rule.kind === 'take_value' || Object.hasOwn(value, field);
    const errors = (line.errors ?? []).filter((error) => !(isSolved && error.field === field));
    return {
      ...line,
      value: change({ ...(value as Fields) }),
      errors: errors.length === 0 ? null : errors,
    };
  };
}

function toChange(rule: LineRule): Change {
  switch (rule.kind) {
    case 'leave_out':
      return (fields) => without(fields, rule.field);
    case 'take_value':
      return (fields) => ({ ...fields, [rule.field]: rule.value });
    case 'unit':
      return readInUnit(rule.field, rule.unit);
    case 'reckon':
      return (fields) => {
        const number = numberOf(fields[rule.field]);
        return number === null ? fields : { ...fields, [rule.field]: number * rule.times + rule.plus };
      };
    case 'zone':
      return readInZone(rule.zone);
    case 'replace':
      return (fields) =>
        typeof fields.vehicle === 'string'
          ? { ...fields, vehicle: fields.vehicle.replaceAll(rule.find, rule.with) }
          : fields;
  }
}

function readInUnit(field: string, unit: FileUnit): Change {
  const own = metric[field] ?? (field as MappedField);
  const fitting = Object.hasOwn(fieldUnits, own) ? fieldUnits[own] : [];
  if (!fitting.includes(unit))
    throw refuseRule(
      'unit',
      fitting.length === 0
        ? `fits no field ${field}, which has none`
        : `must be one of ${fitting.join(', ')}`,
    );
  return (fields) => {
    const number = numberOf(fields[field]);
    return number === null ? fields : { ...without(fields, field), [own]: toOwnUnit(number, unit) };
  };
}

/** 04.03.26 may be of 2004 or 2026: a line says nothing of its order. */
const YEAR_IS_PLAIN = /^(?:\d{4}\D|\d{8})|\p{L}{3}\D*\d{4}/u;

function readInZone(zone: string): Change {
  if (!isZone(zone)) throw refuseRule('zone', 'must be an IANA time zone or an offset such as +02:00');
  const readText = createTimeTextReader('ymd');
  const toMoment = createZoneClock(zone);
  return (fields) => {
    if (typeof fields.at !== 'string') return fields;
    const text = fields.at.trim();
    const read = YEAR_IS_PLAIN.test(text) ? readText(text) : null;
    if (read === null || read.dayMs === null || read.clockMs === null) return fields;
    const localMs = read.dayMs + read.clockMs;
    const ms = read.offsetMs === null ? toMoment(localMs) : localMs - read.offsetMs;
    return ms === null ? fields : { ...fields, at: new Date(ms).toISOString() };
  };
}

/** A comma that can part no thousands. */
const COMMA = /^[^.,]*(?:,(?:\d{1,2}(?!\d)|\d{4,})|(?<!\d)0,\d)[^.,]*$/;

/** A number, also one that came as text, with what is written behind it left out; null where part of it would be. */
function numberOf(value: unknown): number | null {
  if (typeof value === 'number') return value;
  if (typeof value !== 'string') return null;
  const text = value.trim();
  const figure = cutFigure(text, COMMA.test(text) ? ',' : '.');
  if (figure === null || !Number.isFinite(figure.value)) return null;
  // '1/min' begins with a digit and is a unit; what else does is the rest of a number.
  const isCut = /^[.,'’]?\d/.test(figure.behind) && unitOf(figure.behind) === undefined;
  return isCut ? null : figure.value;
}

function without(fields: Fields, field: string): Fields {
  const { [field]: _, ...rest } = fields;
  return rest;
}

const refuseRule = (field: string, message: string): SlipdriftError =>
  new SlipdriftError('invalid_request', `The rule is not right: ${field} ${message}. Nothing was changed.`, {
    errors: [{ field: `rule.${field}`, message }],
  });
