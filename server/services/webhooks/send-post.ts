import { type ClaimedPost, noteTry, type TryResult } from '#db/queries/webhook-posts.ts';
import type { WebhookEvent } from '#server/contract/webhooks.ts';
import type { Context } from '#server/services/context.ts';
import { toPlainText } from '#server/services/intake/to-plain-text.ts';
import { planNextTry } from './plan-next-try.ts';
import { signPost } from './sign-post.ts';

/** For the whole of a try. */
const ANSWER_MS = 10_000;
const ANSWER_KEPT_CHARACTERS = 200;

interface Answered {
  status: number | null;
  retryAfter: string | null;
  fault: string | null;
}

export interface Sending {
  /** origin that people use, for links; null where none is set */
  publicUrl: string | null;
  signal: AbortSignal;
  /** false: one try and no more */
  again?: boolean;
}

/** Sends what was taken in hand, and notes how it ended: confirmed by any 2xx, else tried again or given up. */
export async function sendPost(
  ctx: Context,
  post: ClaimedPost,
  { publicUrl, signal, again = true }: Sending,
): Promise<TryResult> {
  const answered = await call(ctx, post, publicUrl, signal);
  const now = ctx.now();
  const { status, retryAfter, fault } = answered;
  const { at, tries } = post;
  const nextAt =
    fault === null || !again
      ? null
      : planNextTry({ at, now, tries, status, retryAfter, chance: Math.random() });
  const result = { status, fault, nextAt };
  await noteTry(ctx.db, post, result);
  if (fault !== null)
    ctx.log.warn({ webhook: post.webhook, event: post.id, tries, nextAt }, `webhook not given: ${fault}`);
  return result;
}

async function call(
  ctx: Context,
  { id, webhook, url, secret, body: event }: ClaimedPost,
  publicUrl: string | null,
  signal: AbortSignal,
): Promise<Answered> {
  const { vehicle, type } = event as WebhookEvent;
  const link =
    publicUrl === null || type === 'trial' ? null : `${publicUrl}/vehicles/${encodeURIComponent(vehicle)}`;
  const body = JSON.stringify({ ...(event as WebhookEvent), link });
  const limit = AbortSignal.timeout(ANSWER_MS);
  try {
    const answer = await fetch(url, {
      method: 'POST',
      headers: {
        ...signPost({ url, event: id, body, secret, keyId: `webhook-${webhook}`, at: ctx.now() }),
        'user-agent': 'slipdrift',
      },
      body,
      redirect: 'manual',
      signal: AbortSignal.any([limit, signal]),
    });
    const text = await readBeginning(answer);
    return {
      status: answer.status,
      retryAfter: answer.headers.get('retry-after'),
      fault: answer.ok ? null : sayAnswer(answer.status, text),
    };
  } catch (error) {
    return { status: null, retryAfter: null, fault: sayFault(error, limit.aborted, signal.aborted) };
  }
}

function sayAnswer(status: number, text: string): string {
  const what =
    status >= 300 && status < 400
      ? `It answered ${status}; redirects are not followed`
      : `It answered ${status}`;
  return text === '' ? what : `${what}: ${text}`;
}

async function readBeginning(answer: Response): Promise<string> {
  const reader = answer.body?.getReader();
  if (reader === undefined) return '';
  const decoder = new TextDecoder();
  let text = '';
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    text += decoder.decode(value, { stream: true });
    if (text.length > ANSWER_KEPT_CHARACTERS) {
      await reader.cancel();
      break;
    }
  }
  return toPlainText(text.replace(/\s+/g, ' ').trim()).slice(0, ANSWER_KEPT_CHARACTERS);
}

const faultWords: Record<string, string> = {
  ECONNREFUSED: 'Nothing listens at its address',
  ECONNRESET: 'It broke off the connection',
  UND_ERR_SOCKET: 'It broke off the connection',
  ENOTFOUND: 'Its name is not known',
  EAI_AGAIN: 'Its name could not be looked up',
  EHOSTUNREACH: 'Its address cannot be reached',
  ENETUNREACH: 'Its address cannot be reached',
  CERT_HAS_EXPIRED: 'Its certificate has run out',
  DEPTH_ZERO_SELF_SIGNED_CERT: 'Its certificate is signed by itself',
  SELF_SIGNED_CERT_IN_CHAIN: 'Its certificate is signed by nobody known',
  UNABLE_TO_VERIFY_LEAF_SIGNATURE: 'Its certificate is signed by nobody known',
  ERR_TLS_CERT_ALTNAME_INVALID: 'Its certificate is of another name',
};

function sayFault(error: unknown, late: boolean, stopped: boolean): string {
  if (late) return `No answer within ${ANSWER_MS / 1000} s`;
  if (stopped) return 'Broken off: Slipdrift was stopped';
  const { cause = error } = error as { cause?: unknown };
  const { code } = cause as { code?: unknown };
  const text = typeof code === 'string' ? code : 'no code';
  return faultWords[text] ?? `It could not be reached (${text})`;
}
