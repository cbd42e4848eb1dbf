import { type TrendRequest, trendRequest } from '#server/contract/analysis.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';

/** A series of 100,000 may be wrong at every point: so many faults are named, the rest is counted. */
const MOST_NAMED = 20;

/** Reads the body of a request for a trend; what is wrong with it as a whole is an error. */
export function readTrendRequest(body: string): TrendRequest {
  if (body.trim() === '')
    throw new SlipdriftError(
      'body_empty',
      'The body is empty. Send {"x": [...], "y": [...]} as JSON. Nothing was computed.',
    );
  const parsed = trendRequest.safeParse(parseJson(body));
  if (parsed.success) return parsed.data;
  const faults = parsed.error.issues.flatMap((issue): FieldError[] => {
    const path = issue.path.map(String);
    const fields = issue.code === 'unrecognized_keys' ? issue.keys : [undefined];
    return fields.map((key) => ({
      field: [...path, ...(key === undefined ? [] : [key])].join('.'),
      message: issue.message,
    }));
  });
  const [first] = faults;
  const where = first?.field ? `${first.field} ` : 'the body ';
  const more = faults.length > 1 ? ` (and ${faults.length - 1} more)` : '';
  throw new SlipdriftError(
    'invalid_request',
    `The series cannot be used: ${where}${first?.message}${more}. Nothing was computed; correct it and send it again.`,
    { errors: faults.slice(0, MOST_NAMED) },
  );
}

function parseJson(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch (error) {
    const told = error instanceof Error ? ` (${error.message.slice(0, 120)})` : '';
    throw new SlipdriftError(
      'body_broken',
      `The body is not JSON${told}. NaN and Infinity are no JSON: leave such points out of both x and y. Nothing was computed.`,
    );
  }
}
