import type { TestStep } from '#server/contract/words.ts';
import { readNumber } from '#web/format/read-number.ts';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { stepFields, ticked } from './step-fields.ts';

export type StepInput = Record<string, string | number | boolean>;
export type StepRead = { input: StepInput; faults?: undefined } | { input?: undefined; faults: DraftFields };

/** What was typed into the fields of a step, as the server takes it; or what is wrong, by field. */
export function readStep(step: TestStep, fields: DraftFields): StepRead {
  const input: StepInput = { step, notes: (fields.notes ?? '').trim() };
  const faults: Record<string, string> = {};
  for (const field of stepFields[step]) {
    const text = fields[field.name] ?? '';
    if (field.kind === 'tick') input[field.name] = text === ticked;
    else if (field.kind === 'choice') {
      const chosen = text === '' ? field.usual : text;
      if (chosen === undefined) faults[field.name] = 'Choose one.';
      else input[field.name] = chosen;
    } else if (text.trim() !== '' || field.mayStayEmpty !== true) {
      const { least, most, unit } = field;
      const read = readNumber(text, { least, most, decimalComma: true, ...(unit === null ? {} : { unit }) });
      if (read.value === null) faults[field.name] = read.fault;
      else input[field.name] = read.value;
    }
  }
  return Object.keys(faults).length > 0 ? { faults } : { input };
}

/** The fields with a suggestion of the server written into them. */
export function takeSuggestion(
  fields: DraftFields,
  suggestion: Readonly<Record<string, string | number | boolean>>,
): DraftFields {
  const written = Object.entries(suggestion).map(([name, value]) => [
    name,
    typeof value === 'boolean' ? (value ? ticked : '') : String(value),
  ]);
  return { ...fields, ...Object.fromEntries(written) };
}
