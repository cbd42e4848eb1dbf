import { randomUUID } from 'node:crypto';
import { listKeptLines } from '#db/queries/intake-desk/kept-lines.ts';
import type { Correction, LetIn } from '#server/contract/intake.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { type Checked, checkReading } from '#server/services/intake/check-reading.ts';
import type { Line } from '#server/services/intake/line.ts';
import { toPlainText } from '#server/services/intake/to-plain-text.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { letLinesIn, openReceipt } from './let-lines-in.ts';
import { readKeptLine } from './read-kept-line.ts';

const NOTED_CHARACTERS = 500;

/** Lets one refused line in as somebody corrected it, or says what is still wrong with it. */
export async function correctLine(ctx: Context, id: number, correction: Correction): Promise<LetIn> {
  requireAllDepots(ctx.actor, 'Letting a refused line in');
  const [row] = await listKeptLines(ctx.db, { ids: [id] }, 1);
  if (row === undefined) throw new SlipdriftError('not_found', `There is no refused line ${id}.`);
  if (row.line.state !== 'open') throw alreadySettled(id, row.line.state);
  const nowMs = ctx.now().getTime();
  const { reading, errors } =
    'reading' in correction
      ? checkReading(correction.reading, nowMs)
      : checkLine(readKeptLine(row, correction.raw), nowMs);
  if (reading === null)
    throw new SlipdriftError(
      'invalid_request',
      `The line is no reading yet: ${errors.map(({ field, message }) => `${field} ${message}`.trim()).join('; ')}. It stays open as it came.`,
      { errors },
    );
  const sender = row.sender ?? 'program:unknown';
  const receipt = openReceipt(randomUUID(), ctx.now());
  const corrected = 'reading' in correction ? JSON.stringify(correction.reading) : correction.raw;
  const { counts } = await letLinesIn(ctx, receipt, [{ id, sender, reading }], {
    fault: row.line.fault,
    corrected: toPlainText(corrected.slice(0, NOTED_CHARACTERS)),
  });
  if (counts.received === 0) throw alreadySettled(id, 'let_in');
  const { stored, duplicate, conflicting } = counts;
  return { receipt: receipt.id, let_in: 1, stored, duplicate, conflicting };
}

export const checkLine = (line: Line, nowMs: number): Checked =>
  line.errors === null ? checkReading(line.value, nowMs) : { reading: null, errors: line.errors };

function alreadySettled(id: number, state: 'let_in' | 'laid_aside'): SlipdriftError {
  const how = state === 'let_in' ? 'was let in already' : 'was laid aside; open it again first';
  return new SlipdriftError('conflict', `The line ${id} ${how}. Nothing was changed.`);
}
