import { DrizzleQueryError } from 'drizzle-orm';
import { expect, it } from 'vitest';
import { createLog, describeError } from './create-log.ts';

const secret = 'f00d-secret';
const fromPostgres = Object.assign(new Error('could not extend file'), {
  name: 'PostgresError',
  code: '53100',
  routine: 'mdextend',
  detail: `Failing row contains (${secret}).`,
  parameters: [secret],
});
const failed = new DrizzleQueryError('insert into t values ($1)', [secret, `a\n at ${secret}`], fromPostgres);

it('logs the statement, code and place of an error, and no value of it', () => {
  const lines: string[] = [];
  createLog('info', { write: (line) => lines.push(line) })
    .child({ request: 'r' })
    .error({ err: failed }, 'failed');
  expect(lines).toHaveLength(1);
  expect(lines[0]).toContain('insert into t values ($1)');
  expect(lines[0]).toContain('"code":"53100"');
  expect(lines[0]).toContain('create-log.test.ts');
  expect(lines[0]).not.toContain(secret);
});

it('describes what is no error, and a chain that has no end', () => {
  expect(describeError('odd')).toEqual({ type: 'string', message: 'odd' });
  const first = new Error('first');
  first.cause = first;
  expect(JSON.stringify(describeError(first)).match(/first/g)?.length).toBeLessThan(20);
});
