import { randomBytes } from 'node:crypto';
import { desc, eq } from 'drizzle-orm';
import type { z } from 'zod';
import { packetLinks, packetOpenings, packets } from '#db/schema/packets.ts';
import type { newPacketLink, PacketLink, packetLinkRequest } from '#server/contract/packets.ts';
import { SlipdriftError } from '#server/errors.ts';
import { type Actor, programActor } from '#server/services/actor.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { digestOf } from '#server/services/keys/key-text.ts';
import { dayWords } from '#server/services/words/day-words.ts';
import { findPacket } from './find-packet.ts';

const DAY_MS = 86_400_000;
const OPENINGS_SHOWN = 50;
const BROWSER_LENGTH = 200;
/** A form that neither keys nor anything else here has, so that a link is told from them at sight. */
const FORM = /^packet_[\w-]{43}$/;

export const isLinkSecret = (text: string): boolean => FORM.test(text);

/** Makes a link that opens one packet without an account. The address is answered this once. */
export function makeLink(
  ctx: Context,
  id: number,
  { label, days, may_report: mayReport }: z.output<typeof packetLinkRequest>,
  origin: string,
): Promise<z.infer<typeof newPacketLink>> {
  const secret = `packet_${randomBytes(32).toString('base64url')}`;
  return ctx.db.transaction(async (transaction) => {
    const inside = { ...ctx, db: transaction };
    const { vehicle } = await findPacket(inside, id);
    const madeAt = ctx.now();
    const expiresAt = new Date(madeAt.getTime() + days * DAY_MS);
    const [row] = await transaction
      .insert(packetLinks)
      .values({
        packet: id,
        digest: digestOf(secret),
        label,
        mayReport,
        madeAt,
        madeBy: ctx.actor.name,
        expiresAt,
      })
      .returning();
    if (row === undefined) throw new Error('an insert answers its row');
    await noteChanges(transaction, ctx, [
      {
        action: 'link_made',
        subject: 'packet',
        subjectId: String(id),
        after: { vehicle: vehicle.unit, label, may_report: mayReport, expires_at: expiresAt.toISOString() },
      },
    ]);
    // Behind the #, so that no server or proxy on the way writes it down.
    return { link: toLink(row, [], madeAt), address: `${origin}/shared#${secret}` };
  });
}

/** The links of a packet and who opened them, newest first. */
export async function listLinks(ctx: Context, id: number): Promise<PacketLink[]> {
  await findPacket(ctx, id);
  const rows = await ctx.db
    .select()
    .from(packetLinks)
    .where(eq(packetLinks.packet, id))
    .orderBy(desc(packetLinks.id));
  const openings = (link: number) =>
    ctx.db
      .select()
      .from(packetOpenings)
      .where(eq(packetOpenings.link, link))
      .orderBy(desc(packetOpenings.id))
      .limit(OPENINGS_SHOWN);
  return Promise.all(rows.map(async (row) => toLink(row, await openings(row.id), ctx.now())));
}

/** Ends a link at once. */
export async function revokeLink(ctx: Context, id: number, link: number): Promise<void> {
  await ctx.db.transaction(async (transaction) => {
    const { vehicle } = await findPacket({ ...ctx, db: transaction }, id);
    const [row] = await transaction.select().from(packetLinks).where(eq(packetLinks.id, link)).for('update');
    if (row === undefined || row.packet !== id)
      throw new SlipdriftError('not_found', `Packet ${id} has no link ${link}. Nothing was changed.`);
    if (row.revokedAt !== null) return;
    await transaction
      .update(packetLinks)
      .set({ revokedAt: ctx.now(), revokedBy: ctx.actor.name })
      .where(eq(packetLinks.id, link));
    await noteChanges(transaction, ctx, [
      {
        action: 'link_revoked',
        subject: 'packet',
        subjectId: String(id),
        before: { vehicle: vehicle.unit, label: row.label },
      },
    ]);
  });
}

type Row = typeof packetLinks.$inferSelect;

const stateOf = ({ revokedAt, expiresAt }: Row, now: Date): PacketLink['state'] =>
  revokedAt !== null ? 'revoked' : expiresAt <= now ? 'expired' : 'works';

function toLink(row: Row, openings: (typeof packetOpenings.$inferSelect)[], now: Date): PacketLink {
  return {
    id: row.id,
    label: row.label,
    may_report: row.mayReport,
    made_at: row.madeAt.toISOString(),
    made_by: row.madeBy,
    expires_at: row.expiresAt.toISOString(),
    revoked_at: row.revokedAt?.toISOString() ?? null,
    revoked_by: row.revokedBy,
    state: stateOf(row, now),
    openings: openings.map(({ at, from, what, browser }) => ({ at: at.toISOString(), from, what, browser })),
  };
}

interface Asked {
  from: string | null;
  /** what was asked for, in words; null for what a page fetches once it is open */
  what: string | null;
  browser: string;
}

/** Whoever holds a link, or the refusal that says why it opens nothing. Each opening, and each vain try, is kept. */
export async function findLink(
  { db, now }: Pick<Context, 'db' | 'now'>,
  secret: string,
  asked: Asked,
): Promise<Actor> {
  const found = await readLink(db, secret);
  const at = now();
  const { link, vehicle } = found;
  const state = stateOf(link, at);
  const what =
    state === 'works' ? asked.what : `refused: it ${state === 'expired' ? 'had run out' : 'was revoked'}`;
  if (what !== null)
    await db.insert(packetOpenings).values({
      link: link.id,
      at,
      from: asked.from,
      what,
      browser: asked.browser.slice(0, BROWSER_LENGTH),
    });
  refuseEnded(link, at);
  return {
    ...programActor(`link for ${link.label}`),
    kind: 'link',
    id: String(link.id),
    right: null,
    depots: [],
    link: { packet: link.packet, vehicle, mayReport: link.mayReport },
    confirm: async () => {
      refuseEnded((await readLink(db, secret)).link, now());
    },
  };
}

async function readLink(db: Context['db'], secret: string) {
  // Found by its digest, so that neither time nor words tell how much of a secret is right.
  const [found] = await db
    .select({ link: packetLinks, vehicle: packets.vehicle })
    .from(packetLinks)
    .innerJoin(packets, eq(packets.id, packetLinks.packet))
    .where(eq(packetLinks.digest, digestOf(secret)));
  if (found === undefined)
    throw new SlipdriftError(
      'unauthorized',
      'This link opens nothing: it is not known here, or a part of it is missing. Ask whoever sent it for a new one.',
    );
  return found;
}

function refuseEnded(link: Row, now: Date): void {
  const state = stateOf(link, now);
  if (state === 'works') return;
  const when = dayWords(state === 'expired' ? link.expiresAt : (link.revokedAt ?? now));
  throw new SlipdriftError(
    'unauthorized',
    `This link ${state === 'expired' ? `ran out on ${when}` : `was revoked on ${when}`}. Ask whoever sent it for a new one.`,
  );
}
