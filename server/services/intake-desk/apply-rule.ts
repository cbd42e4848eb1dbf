import { randomUUID } from 'node:crypto';
import { nameFault } from '#db/queries/copy-refused-lines.ts';
import { type KeptLineRow, listKeptLines } from '#db/queries/intake-desk/kept-lines.ts';
import type { LineRule, RuleReply, RuleRequest } from '#server/contract/intake.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import type { Line } from '#server/services/intake/line.ts';
import { readAgain } from '#server/services/intake/read-again.ts';
import type { ReadWith } from '#server/services/intake/read-with.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { createLineRule } from './apply-line-rule.ts';
import { checkLine } from './correct-line.ts';
import { type GoodLine, letLinesIn, openReceipt } from './let-lines-in.ts';
import { fieldsOf, readKeptLine, readWithOf } from './read-kept-line.ts';

const LINES_AT_ONCE = 5000;
const EXAMPLES = 20;
const FAULTS = 20;

/**
 * Lets all open lines with one fault in, as a rule makes them; dry, it only says what that comes to. Lines that are no
 * readings by the rule stay open. Lines are read and stored some thousands at a time, so that memory does not grow with
 * their number.
 */
export async function applyRule(ctx: Context, request: RuleRequest): Promise<RuleReply> {
  requireAllDepots(ctx.actor, 'Letting refused lines in');
  const { fault, receipt: ofReceipt, sender, rule, dry_run: isDry } = request;
  const apply = createReader(rule);
  const examples: RuleReply['examples'] = [];
  const faults = new Map<string, number>();
  let lines = 0;
  let good = 0;
  let receipt = openReceipt(randomUUID(), ctx.now());
  for (let afterId: number | undefined; ; ) {
    const filter = { fault, receipt: ofReceipt, sender, state: 'open', afterId } as const;
    const rows = await listKeptLines(ctx.db, filter, LINES_AT_ONCE);
    if (rows.length === 0) break;
    afterId = rows.at(-1)?.line.id;
    const nowMs = ctx.now().getTime();
    const ready: GoodLine[] = [];
    for (const row of rows) {
      const line = apply(row);
      const { reading, errors } = checkLine(line, nowMs);
      if (reading !== null) ready.push({ id: row.line.id, sender: row.sender ?? 'program:unknown', reading });
      else faults.set(nameFault(errors), (faults.get(nameFault(errors)) ?? 0) + 1);
      if (examples.length < EXAMPLES) {
        const { id, line: number, raw } = row.line;
        examples.push({ id, line: number, raw, reading: fieldsOf(line), errors: errors ?? [] });
      }
    }
    lines += rows.length;
    good += ready.length;
    if (!isDry) receipt = await letLinesIn(ctx, receipt, ready, { fault, rule });
  }
  if (lines === 0)
    throw new SlipdriftError(
      'not_found',
      'There is no open line with this fault any more. Nothing was changed.',
    );
  const { received, stored, duplicate, conflicting } = receipt.counts;
  return {
    dry_run: isDry,
    lines,
    good,
    faults: [...faults]
      .map(([name, n]) => ({ fault: name, lines: n }))
      .sort((a, b) => b.lines - a.lines)
      .slice(0, FAULTS),
    examples,
    let_in: received,
    stored,
    duplicate,
    conflicting,
    receipt: received === 0 ? null : receipt.id,
  };
}

/** A zone belongs to how a mapped file is read; every other rule works on what was read. */
function createReader(rule: LineRule): (row: KeptLineRow) => Line {
  const apply = createLineRule(rule);
  return (row) => {
    const readWith = readWithOf(row);
    if (rule.kind !== 'zone' || readWith?.form !== 'mapped') return apply(readKeptLine(row));
    return { ...readAgain(inZone(readWith, rule.zone), row.line.raw), line: row.line.line };
  };
}

const inZone = (readWith: Extract<ReadWith, { form: 'mapped' }>, zone: string): ReadWith => ({
  ...readWith,
  mapping: { ...readWith.mapping, time: { ...readWith.mapping.time, zone } },
  given: { ...readWith.given, zone },
});
