import { eq } from 'drizzle-orm';
import { readDigestChoice } from '#db/queries/digest/sent-digests.ts';
import { people } from '#db/schema/access.ts';
import type { DigestChoice, DigestState } from '#server/contract/digest.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { ownId } from '#server/services/people/own-sessions.ts';
import { dayWords } from '#server/services/words/day-words.ts';
import { sendingWeek } from './sending-week.ts';

/** Whether a person gets the digest by e-mail, and what became of the last one. */
export async function getMailChoice(ctx: Context, canMail: boolean): Promise<DigestState> {
  const found = await readDigestChoice(ctx.db, ownId(ctx));
  if (found === null) throw new SlipdriftError('unauthorized', 'Your session has ended.');
  const { byMail, units, sent } = found;
  const [newest] = sent;
  return {
    by_mail: byMail,
    units,
    can_mail: canMail,
    last_sent_at: sent.find(({ sentAt }) => sentAt !== null)?.sentAt?.toISOString() ?? null,
    problem: newest === undefined ? null : problemOf(newest, sendingWeek(ctx.now())),
  };
}

function problemOf(
  { week, sentAt, problem }: { week: string; sentAt: Date | null; problem: string | null },
  sending: string | null,
): string | null {
  if (sentAt !== null || problem === null) return null;
  return week === sending
    ? `${problem} It is tried again until Tuesday evening.`
    : `The week of ${dayWords(Date.parse(week))} was not sent. ${problem}`;
}

export async function setMailChoice(
  ctx: Context,
  { by_mail: byMail, units }: DigestChoice,
  canMail: boolean,
): Promise<DigestState> {
  const id = ownId(ctx);
  await ctx.db.transaction(async (transaction) => {
    const [before] = await transaction
      .select({ weekly_digest: people.weeklyDigest, digest_units: people.digestUnits })
      .from(people)
      .where(eq(people.id, id))
      .for('update');
    const after = { weekly_digest: byMail, digest_units: units };
    if (before?.weekly_digest === byMail && before.digest_units === units) return;
    await transaction
      .update(people)
      .set({ weeklyDigest: byMail, digestUnits: units })
      .where(eq(people.id, id));
    await noteChanges(transaction, ctx, [
      { action: 'changed', subject: 'person', subjectId: id, before: before ?? null, after },
    ]);
  });
  return getMailChoice(ctx, canMail);
}
