import {
  claimDigest,
  listDuePeople,
  noteNotSent,
  noteSent,
  type Recipient,
} from '#db/queries/digest/sent-digests.ts';
import type { Context } from '#server/services/context.ts';
import type { Mailer } from '#server/services/mail/mail.ts';
import { MailFault } from '#server/services/mail/mail-fault.ts';
import { toActor } from '#server/services/people/find-person.ts';
import { getDigest } from './get-digest.ts';
import { sendingWeek } from './sending-week.ts';
import { writeDigestMail } from './write-digest-mail.ts';

export interface DigestPost {
  mailer: Mailer;
  /** origin that people use, for links; null where none is set */
  publicUrl: string | null;
}

/**
 * Sends the digest of this week to everybody who waits for it, each once though several programs do so at a time: a
 * person is claimed in the database, sent to, and marked. A program that dies between the last two leaves a claim that is
 * taken up again after a while, so that then somebody gets the same twice, rather than nothing. Answers how many it sent.
 */
export async function sendDueDigests(
  ctx: Context,
  post: DigestPost,
  signal: AbortSignal = new AbortController().signal,
): Promise<number> {
  const week = sendingWeek(ctx.now());
  if (week === null) return 0;
  let sent = 0;
  let serverFault: MailFault | null = null;
  for (const id of await listDuePeople(ctx.db, week, ctx.now())) {
    if (signal.aborted) break;
    const person = await claimDigest(ctx.db, id, week, ctx.now());
    if (person === null) continue;
    // A server that let one down would let the others down too, each after a long wait.
    const fault: MailFault | null = serverFault ?? (await trySending(ctx, post, person, signal));
    if (fault === null) {
      await noteSent(ctx.db, id, week, ctx.now());
      sent += 1;
      continue;
    }
    if (fault.of === 'stop') break;
    await noteNotSent(ctx.db, id, week, fault.message);
    if (fault === serverFault) continue;
    ctx.log.warn({ person: id, week, ...fault.codes }, `digest not sent: ${fault.message}`);
    if (fault.of === 'server') serverFault = fault;
  }
  if (sent > 0) ctx.log.info({ week, sent }, 'digests sent');
  return sent;
}

async function trySending(
  ctx: Context,
  { mailer, publicUrl }: DigestPost,
  person: Recipient,
  signal: AbortSignal,
): Promise<MailFault | null> {
  try {
    const digest = await getDigest({ ...ctx, actor: toActor(person) }, { units: person.digestUnits });
    const { domain } = mailer;
    await mailer.send(writeDigestMail(digest, { person, publicUrl, domain, date: ctx.now() }), signal);
    return null;
  } catch (error) {
    if (error instanceof MailFault) return error;
    ctx.log.error({ err: error, person: person.id }, 'digest could not be made');
    return new MailFault('message', 'The digest could not be made; the log says why.');
  }
}
