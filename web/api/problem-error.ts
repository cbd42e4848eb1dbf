import type { FieldError, Problem } from '#server/contract/problems.ts';

/** What a call throws: the server's problem document, or the same shape for an answer that never came. */
export class ProblemError extends Error {
  readonly title: string;
  readonly detail: string;
  readonly code: Problem['code'] | 'no_answer';
  readonly status: number;
  readonly errors: readonly FieldError[];
  readonly request: string | null;
  /** seconds to wait before another try, where the server said so */
  readonly retryAfterS: number | null;

  constructor(problem: {
    title: string;
    detail: string;
    code: Problem['code'] | 'no_answer';
    status: number;
    errors?: readonly FieldError[] | undefined;
    request?: string | undefined;
    retryAfterS?: number | null;
  }) {
    super(`${problem.title}: ${problem.detail}`);
    this.name = 'ProblemError';
    this.title = problem.title;
    this.detail = problem.detail;
    this.code = problem.code;
    this.status = problem.status;
    this.errors = problem.errors ?? [];
    this.request = problem.request ?? null;
    this.retryAfterS = problem.retryAfterS ?? null;
  }
}

export const noAnswer = (): ProblemError =>
  new ProblemError({
    title: 'The server does not answer',
    detail: 'Nothing was lost. Check that Slipdrift is running and that this device is connected.',
    code: 'no_answer',
    status: 0,
  });

/** Reads a refusal; an answer that is no problem document still says its status. */
export async function readProblem(response: Response): Promise<ProblemError> {
  const body: unknown = await response.json().catch(() => null);
  if (isProblem(body)) return new ProblemError({ ...body, retryAfterS: readSeconds(response) });
  return new ProblemError({
    title: `The server answered ${response.status}`,
    detail: 'It gave no reason. Try again; if it stays, its log has the rest.',
    code: response.status === 404 ? 'not_found' : 'internal',
    status: response.status,
  });
}

/** `Retry-After` in its form of seconds (RFC 9110, section 10.2.3). */
function readSeconds(response: Response): number | null {
  const text = response.headers.get('retry-after') ?? '';
  return /^\d+$/.test(text) ? Number(text) : null;
}

function isProblem(body: unknown): body is Problem {
  return (
    typeof body === 'object' &&
    body !== null &&
    'title' in body &&
    typeof body.title === 'string' &&
    'detail' in body &&
    typeof body.detail === 'string' &&
    'code' in body
  );
}
