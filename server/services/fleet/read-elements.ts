import type { z } from 'zod';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';

/** One element of a set-up request, with its number from 1, or the line of its file. */
export interface Element<T> {
  line: number;
  input: Record<string, unknown>;
  value: T;
}

interface ObjectSchema<T> extends z.ZodType<T> {
  shape: Record<string, unknown>;
}

/** All of them are one transaction, and one statement names them all. */
const ELEMENTS_LIMIT = 20_000;

/** Checks one object or an array of them. All faults are told at once; one fault and nothing is changed. */
export function readElements<T>(
  body: unknown,
  schema: ObjectSchema<T>,
  keyOf: (value: T) => string,
  lines?: readonly number[],
): Element<T>[] {
  const inputs = Array.isArray(body) ? body : [body];
  if (inputs.length > ELEMENTS_LIMIT)
    throw new SlipdriftError(
      'invalid_request',
      `The body has ${inputs.length} elements, but one request may have ${ELEMENTS_LIMIT}. Nothing was changed; send several.`,
    );
  const elements: Element<T>[] = [];
  const errors: FieldError[] = [];
  const firstLines = new Map<string, number>();
  for (const [index, input] of inputs.entries()) {
    const line = lines?.[index] ?? index + 1;
    const unknown = unknownFields(input, schema);
    for (const field of unknown) errors.push({ line, field, message: 'is not a known field' });
    const parsed = schema.safeParse(input);
    if (!parsed.success) {
      for (const issue of parsed.error.issues)
        errors.push({ line, field: issue.path.map(String).join('.'), message: issue.message });
      continue;
    }
    const key = keyOf(parsed.data);
    const first = firstLines.get(key);
    if (first !== undefined)
      errors.push({
        line,
        field: '',
        message: `is the same ${key} as ${lines === undefined ? 'element' : 'line'} ${first}; send each once`,
      });
    else firstLines.set(key, line);
    elements.push({ line, input, value: parsed.data });
  }
  if (errors.length > 0) throw refuseSetUp(errors);
  return elements;
}

function unknownFields(input: unknown, schema: ObjectSchema<unknown>): string[] {
  if (typeof input !== 'object' || input === null) return [];
  return Object.keys(input).filter((field) => !Object.hasOwn(schema.shape, field));
}

export function refuseSetUp(errors: FieldError[]): SlipdriftError {
  const [first] = errors;
  const where = first?.field ? `'${first.field}' ` : '';
  const more = errors.length > 1 ? ` (and ${errors.length - 1} more)` : '';
  return new SlipdriftError(
    'invalid_request',
    `Element ${first?.line}: ${where}${first?.message}${more}. Nothing was changed.`,
    { errors },
  );
}
