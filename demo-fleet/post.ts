import { setTimeout as sleep } from 'node:timers/promises';

export interface PostSettings {
  baseUrl: string;
  apiKey?: string | undefined;
  /** first wait before another try; doubles up to 8 s */
  retryDelayMs?: number;
  attempts?: number;
}

export interface PostBody {
  contentType: string;
  body: string | Uint8Array<ArrayBuffer>;
  gzipped?: boolean;
  idempotencyKey?: string;
}

const REQUEST_TIMEOUT_MS = 120_000;
const LONGEST_WAIT_MS = 8000;
const passing = new Set([429, 502, 503, 504]);

/** Posts, and tries again where the intake is busy, restarting or out of reach. Answers the parsed reply. */
export async function post(settings: PostSettings, path: string, content: PostBody): Promise<unknown> {
  const { retryDelayMs = 250, attempts = 10 } = settings;
  const headers: Record<string, string> = { 'content-type': content.contentType };
  if (content.gzipped) headers['content-encoding'] = 'gzip';
  if (content.idempotencyKey !== undefined) headers['idempotency-key'] = content.idempotencyKey;
  if (settings.apiKey !== undefined) headers.authorization = `Bearer ${settings.apiKey}`;
  let waitMs = retryDelayMs;
  for (let attempt = 1; ; attempt++) {
    const outcome = await attemptPost(new URL(path, settings.baseUrl), headers, content.body);
    if (outcome.kind === 'done') return outcome.reply;
    if (outcome.kind === 'refused' || attempt >= attempts) throw new Error(`POST ${path}: ${outcome.reason}`);
    await sleep(outcome.retryAfterMs ?? waitMs);
    waitMs = Math.min(2 * waitMs, LONGEST_WAIT_MS);
  }
}

type Outcome =
  | { kind: 'done'; reply: unknown }
  | { kind: 'refused'; reason: string }
  | { kind: 'passing'; reason: string; retryAfterMs: number | null };

async function attemptPost(
  url: URL,
  headers: Record<string, string>,
  body: PostBody['body'],
): Promise<Outcome> {
  try {
    const signal = AbortSignal.timeout(REQUEST_TIMEOUT_MS);
    const response = await fetch(url, { method: 'POST', headers, body, signal });
    const text = await response.text();
    if (response.ok) return { kind: 'done', reply: text === '' ? null : JSON.parse(text) };
    const reason = `${response.status} ${text.slice(0, 500)}`;
    if (!passing.has(response.status) && !text.includes('"key_in_progress"'))
      return { kind: 'refused', reason };
    const seconds = Number(response.headers.get('retry-after') ?? Number.NaN);
    return { kind: 'passing', reason, retryAfterMs: Number.isFinite(seconds) ? seconds * 1000 : null };
  } catch (error) {
    const reason = error instanceof Error ? `${error.message} ${String(error.cause ?? '')}` : String(error);
    return { kind: 'passing', reason, retryAfterMs: null };
  }
}
