import type { ContentfulStatusCode } from 'hono/utils/http-status';
import type { FieldError, Problem } from './contract/problems.ts';
import type { ProblemCode } from './contract/words.ts';

const kinds: Record<ProblemCode, { status: ContentfulStatusCode; title: string }> = {
  invalid_request: { status: 400, title: 'The request is not right' },
  unsupported_content_type: { status: 415, title: 'This content type is not understood' },
  body_too_large: { status: 413, title: 'The body is too large' },
  body_broken: { status: 400, title: 'The body is broken' },
  body_stalled: { status: 408, title: 'The body did not go on' },
  body_empty: { status: 400, title: 'The body is empty' },
  key_reused: { status: 422, title: 'The idempotency key was used for another body' },
  key_in_progress: { status: 409, title: 'A request with this idempotency key is in progress' },
  not_found: { status: 404, title: 'There is no such thing' },
  not_allowed: { status: 403, title: 'This is not allowed' },
  unauthorized: { status: 401, title: 'Who asks is not known' },
  conflict: { status: 409, title: 'This does not fit what is there' },
  too_many: { status: 429, title: 'Too often' },
  method_not_allowed: { status: 405, title: 'This method is not offered here' },
  busy: { status: 503, title: 'Too much at once' },
  storage_full: { status: 507, title: 'Storage is full' },
  storage_unavailable: { status: 503, title: 'Storage does not answer' },
  internal: { status: 500, title: 'Something went wrong on our side' },
};

export interface ErrorExtras {
  errors?: FieldError[];
  cause?: unknown;
  /** seconds after which to try again */
  retryAfterS?: number;
}

/** The one family of errors that reach a sender. `detail` says what happened, what was kept, what to do next. */
export class SlipdriftError extends Error {
  override name = 'SlipdriftError';
  readonly code: ProblemCode;
  readonly errors: FieldError[];
  readonly retryAfterS: number | undefined;

  constructor(code: ProblemCode, detail: string, { errors = [], cause, retryAfterS }: ErrorExtras = {}) {
    super(detail, { cause });
    this.code = code;
    this.errors = errors;
    this.retryAfterS = retryAfterS;
  }

  get status(): ContentfulStatusCode {
    return kinds[this.code].status;
  }
}

/** Any error as one of the family. What nobody foresaw shows nothing of the inside. */
export function toSlipdriftError(error: unknown): SlipdriftError {
  if (error instanceof SlipdriftError) return error;
  const code = storageCode(error);
  if (code === 'storage_full')
    return new SlipdriftError(
      code,
      'The disk or quota of the database is full. Nothing of this request was stored; make room and send it again.',
      { cause: error },
    );
  if (code === 'storage_unavailable')
    return new SlipdriftError(
      code,
      'The database cannot be reached right now. Nothing of this request was stored; send it again later.',
      { cause: error, retryAfterS: 5 },
    );
  if (code === 'busy')
    return new SlipdriftError(
      code,
      'The database has too much at once. Nothing of this request was stored; send it again later.',
      { cause: error, retryAfterS: 5 },
    );
  return new SlipdriftError(
    'internal',
    'This was not foreseen. Send the request again; if it stays, look up the request id in the log.',
    { cause: error },
  );
}

/** RFC 9457 problem document. */
export function toProblem(error: SlipdriftError, requestId: string): Problem {
  const { status, title } = kinds[error.code];
  return {
    type: 'about:blank',
    title,
    status,
    detail: error.message,
    code: error.code,
    errors: error.errors,
    request: requestId,
  };
}

const AWAY =
  /^(ECONNREFUSED|ECONNRESET|EPIPE|ENOENT|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|ENOTFOUND|EAI_AGAIN)$/;
/** Where PostgreSQL 16 to 18 lets a file of a table or a temporary file grow (md.c, buffile.c). */
const GROWS_FILE = /^(md(zero)?extend|BufFileDumpBuffer)$/;
const NETWORK_CALLS = new Set(['connect', 'read', 'write', 'getaddrinfo']);

/** SQLSTATE classes and the client's own codes, wherever in the chain of causes they stand. */
function storageCode(error: unknown): ProblemCode | null {
  for (let at = error, depth = 0; at instanceof Error && depth < 5; at = at.cause, depth += 1) {
    const code = (at as { code?: unknown }).code;
    if (typeof code !== 'string') continue;
    if (code === '53100' || code === 'ENOSPC' || code === 'EDQUOT') return 'storage_full';
    // A file that may not grow, by a limit of the process or of the file system, has no SQLSTATE of its own.
    const { routine } = at as { routine?: unknown };
    if (code === 'XX000' && typeof routine === 'string' && GROWS_FILE.test(routine)) return 'storage_full';
    // Sessions ended, the server starting or stopping, no connection left, or one that only reads (a standby).
    if (/^(08...|57P0[1-5]|53300|53400|25P03|25006)$/.test(code)) return 'storage_unavailable';
    // A lock not had in time, a circle of locks, memory: the same request can succeed later.
    if (/^(40001|40P01|55P03|53200)$/.test(code)) return 'busy';
    if (/^(CONNECTION_|CONNECT_TIMEOUT)/.test(code)) return 'storage_unavailable';
    const { syscall } = at as { syscall?: string };
    if (AWAY.test(code) && syscall !== undefined && NETWORK_CALLS.has(syscall)) return 'storage_unavailable';
  }
  return null;
}
