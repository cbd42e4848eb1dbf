import { SlipdriftError } from '#server/errors.ts';

/** The body of an analysis as JSON; `leaveOut` says what to do with what is no number. */
export function parseAnalysisBody(
  body: string,
  { example, leaveOut }: { example: string; leaveOut: string },
): unknown {
  if (body.trim() === '')
    throw new SlipdriftError(
      'body_empty',
      `The body is empty. Send ${example} as JSON. Nothing was computed.`,
    );
  try {
    return JSON.parse(body);
  } catch (error) {
    const told = error instanceof Error ? ` (${error.message.slice(0, 120)})` : '';
    throw new SlipdriftError(
      'body_broken',
      `The body is not JSON${told}. NaN and Infinity are no JSON: ${leaveOut}. Nothing was computed.`,
    );
  }
}
