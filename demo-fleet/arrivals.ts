import type { ReadingInput } from '#server/contract/readings.ts';
import { DAY_MS, dayOf, HOUR_MS } from './calendar.ts';
import type { Random } from './random.ts';
import type { Disorder } from './scenario.ts';
import type { GatewayKind } from './vehicle.ts';

export type WireForm = 'ndjson' | 'csv' | 'json';

/** One line on its way to the intake. */
export interface Line {
  arrivesMs: number;
  form: WireForm;
  reading: ReadingInput;
  /** text that replaces the reading's own, for lines broken on the way */
  raw?: string;
  fate: 'new' | 'duplicate' | 'conflicting' | 'refused';
}

/** What a perfect intake would have counted. */
export interface LineCounts {
  lines: number;
  stored: number;
  duplicate: number;
  conflicting: number;
  refused: number;
}

const forms: Record<GatewayKind, WireForm> = {
  full: 'ndjson',
  speeds: 'ndjson',
  plain: 'csv',
  imperial: 'json',
};

/** Lines of one vehicle and day with the delays, copies and damage of their way. */
export function sendOff(
  readings: readonly { atMs: number; reading: ReadingInput }[],
  gateway: GatewayKind,
  disorder: Disorder,
  random: Random,
): Line[] {
  const form = forms[gateway];
  const heldMs = random.chance(disorder.lateShare) ? random.between(1, 9) * DAY_MS : 0;
  const lines: Line[] = [];
  for (const { atMs, reading } of readings) {
    const usualMs = form === 'csv' ? (dayOf(atMs) + 1) * DAY_MS - atMs : random.between(5, 900) * 1000;
    const strayMs = random.chance(disorder.lateShare / 2) ? random.between(0.5, 40) * HOUR_MS : 0;
    const arrivesMs = Math.ceil(atMs + usualMs + strayMs + heldMs);
    if (random.chance(disorder.refusedShare)) {
      lines.push(damage({ arrivesMs, form, reading, fate: 'refused' }, random));
      continue;
    }
    lines.push({ arrivesMs, form, reading, fate: 'new' });
    if (random.chance(disorder.duplicateShare)) {
      const again = arrivesMs + Math.ceil(random.between(0.1, 70) * HOUR_MS);
      const different = random.chance(0.04) && reading.duty_pct < 99;
      lines.push({
        arrivesMs: again,
        form,
        reading: different ? { ...reading, duty_pct: Math.round(reading.duty_pct) + 0.5 } : reading,
        fate: different ? 'conflicting' : 'duplicate',
      });
    }
  }
  return lines;
}

function damage(line: Line, random: Random): Line {
  const { reading } = line;
  const kind = line.form === 'ndjson' ? random.integer(0, 4) : random.integer(0, 1);
  const text = JSON.stringify(reading);
  if (kind === 0) line.reading = { ...reading, duty_pct: 255 };
  else if (kind === 1)
    line.reading = { ...reading, ...(reading.fluid_c === undefined ? { fluid_f: 999 } : { fluid_c: 999 }) };
  else if (kind === 2) line.raw = text.slice(0, random.integer(20, text.length - 2));
  else if (kind === 3) line.raw = text.replace(/"at":"[^"]*",/, '');
  else line.raw = text.replace(/"odometer_(km|mi)":[^,}]*/, '"odometer_$1":-1');
  return line;
}
