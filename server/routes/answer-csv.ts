import type { Context } from 'hono';
import { z } from 'zod';
import type { RequestEnv } from './deps.ts';

export const csvAnswer = {
  description:
    'A header line and a line each; RFC 4180. Text that a spreadsheet would run has an apostrophe in front',
  content: { 'text/csv': { schema: z.string() } },
};

/** A table to be kept as a file, with the day in its name. */
export function answerCsv(c: Context<RequestEnv>, name: string, text: string) {
  const day = c.var.context.now().toISOString().slice(0, 10);
  c.header('Content-Disposition', `attachment; filename="slipdrift-${name}-${day}.csv"`);
  c.header('Cache-Control', 'no-store');
  return c.body(text, 200, { 'Content-Type': 'text/csv; charset=utf-8' });
}
